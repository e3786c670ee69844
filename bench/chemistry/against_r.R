# Rscript against_r.R SAMPLES.csv POINTS.csv: times the same work in R and prints one line a task: name, milliseconds, check.
# SAMPLES: group, then 20 variables; POINTS: 30 variables. Written by chemistry_bench.
arguments <- commandArgs(trailingOnly = TRUE)
samples <- read.csv(arguments[1], header = FALSE)
points <- as.matrix(read.csv(arguments[2], header = FALSE))
g <- samples[, 1]
x <- as.matrix(samples[, -1])
p <- ncol(x)

best <- function(work, times) {
  took <- sapply(seq_len(times), function(i) {
    start <- proc.time()[["elapsed"]]
    value <<- work()
    proc.time()[["elapsed"]] - start
  })
  1000 * min(took)
}
say <- function(name, ms, check) cat(sprintf("%s,%.3f,%.12g\n", name, ms, check))

# Each member left out of its own group: mean and covariance of the others, one by one.
own <- function() {
  out <- numeric(nrow(x))
  for (k in unique(g)) {
    rows <- which(g == k)
    for (i in rows) {
      others <- setdiff(rows, i)
      n <- length(others)
      d2 <- mahalanobis(x[i, ], colMeans(x[others, ]), cov(x[others, ]))
      out[i] <- pf(n * (n - p) / (p * (n - 1) * (n + 1)) * d2, p, n - p, lower.tail = FALSE)
    }
  }
  out
}
# The same, and every sample against all other groups, whose mean and covariance are worked once.
all_groups <- function() {
  out <- matrix(0, nrow(x), length(unique(g)))
  for (k in unique(g)) {
    rows <- which(g == k)
    n <- length(rows)
    d2 <- mahalanobis(x, colMeans(x[rows, ]), cov(x[rows, ]))
    out[, k] <- pf(n * (n - p) / (p * (n - 1) * (n + 1)) * d2, p, n - p, lower.tail = FALSE)
  }
  left <- own()
  out[cbind(seq_len(nrow(x)), g)] <- left
  out
}
value <- NULL
ms <- best(own, 2)
say("left-out", ms, sum(value))
ms <- best(all_groups, 1)
say("membership", ms, sum(value))
ms <- best(function() prcomp(points), 7)
say("components", ms, value$sdev[1]^2)
ms <- best(function() prcomp(points, scale. = TRUE), 7)
say("components-scaled", ms, value$sdev[1]^2)
