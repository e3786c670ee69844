# Seconds of the same work in R: Rscript times.R DIR. Base functions and the package ca, as they come.
suppressPackageStartupMessages(library(ca))
folder <- commandArgs(TRUE)[1]
read <- function(name) { m <- as.matrix(read.csv(file.path(folder, name), header = FALSE)); dimnames(m) <- list(paste0("r", seq_len(nrow(m))), paste0("c", seq_len(ncol(m)))); m }
time_of <- function(name, work) { took <- system.time(kept <- work())[["elapsed"]]; cat(name, took, kept, "\n") }

table <- read("ca.csv"); points <- read("ward.csv"); boot <- read("boot.csv")
residuals_of <- function(t) { p <- t / sum(t); r <- rowSums(p); c <- colSums(p); (p - r %o% c) / sqrt(r %o% c) }
totals <- rowSums(boot)
drawn <- function() { t <- t(vapply(seq_along(totals), function(i) as.numeric(rmultinom(1, totals[i], boot[i, ])), numeric(ncol(boot)))); t }

time_of("ca", function() ca(table)$sv[1]^2)
time_of("ward", function() max(hclust(dist(points), "ward.D2")$height))
time_of("ordinations", function() { set.seed(1); mean(vapply(1:1000, function(k) svd(residuals_of(drawn()), 2, 2)$d[1]^2, 0)) })
# Ellipses as ours are made: resampled rows and columns on the axes of the table as found.
time_of("ellipses", function() {
  set.seed(1)
  s <- svd(residuals_of(boot), 2, 2); p <- boot / sum(boot)
  columns <- s$v / sqrt(colSums(p)); rows <- s$u / sqrt(rowSums(p))
  at <- vapply(1:1000, function(k) {
    t <- drawn()
    r <- (t / totals) %*% columns
    c <- crossprod(t, rows) / colSums(t)
    r[1, ]
  }, numeric(2))
  sqrt(max(eigen(cov(t(at)))$values) * qchisq(0.95, 2))
})
