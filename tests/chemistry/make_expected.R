# Writes the tables of this folder and what R makes of them: Rscript make_expected.R
# Needs R with MASS and cluster (Debian: r-base-core r-cran-mass r-cran-cluster). The tests read the files and need no R.
#
# glass.csv: 214 fragments of glass, oxides in percent, by kind of glass; B. German, Home Office Forensic Science Service,
#   as published in W. N. Venables & B. D. Ripley, Modern Applied Statistics with S (data set fgl of the package MASS).
# iris.csv: R. A. Fisher 1936, Annals of Eugenics 7: 179-188 (measured by E. Anderson 1935).
library(MASS)
library(cluster)

write_numbers <- function(x, file) {
  x <- as.matrix(x)
  text <- apply(x, 1, function(row) paste(formatC(row, digits = 15, format = "g", width = 1), collapse = ","))
  writeLines(text, file)
}
ilr <- function(x) {
  D <- ncol(x)
  l <- log(as.matrix(x))
  sapply(1:(D - 1), function(i) sqrt((D - i) / (D - i + 1)) * (l[, i] - rowMeans(l[, (i + 1):D, drop = FALSE])))
}

glass <- data.frame(id = paste0("g", seq_len(nrow(fgl))), kind = as.character(fgl$type), fgl[, 2:9])
write.csv(glass, "glass.csv", row.names = FALSE, quote = FALSE)
flowers <- data.frame(id = paste0("i", 1:150), species = as.character(iris$Species), iris[, 1:4])
names(flowers)[3:6] <- c("sepal_length", "sepal_width", "petal_length", "petal_width")
write.csv(flowers, "iris.csv", row.names = FALSE, quote = FALSE)

# Left-out membership the long way: mean and covariance of the group without the sample, for every sample and group.
membership <- function(x, g) {
  x <- as.matrix(x)
  p <- ncol(x)
  t(sapply(seq_len(nrow(x)), function(i) sapply(sort(unique(g)), function(k) {
    rows <- setdiff(which(g == k), i)
    n <- length(rows)
    d2 <- mahalanobis(x[i, ], colMeans(x[rows, ]), cov(x[rows, ]))
    pf(n * (n - p) / (p * (n - 1) * (n + 1)) * d2, p, n - p, lower.tail = FALSE)
  })))
}

make <- function(name, x, g) {
  write <- function(what, value) write_numbers(value, paste0(name, "-", what, ".csv"))
  x <- as.matrix(x)
  pca <- prcomp(x, scale. = TRUE)
  write("eigenvalues", pca$sdev^2)
  write("loadings", pca$rotation)
  write("scores", pca$x[, 1:2])
  fit <- lda(x, g)
  left <- lda(x, g, CV = TRUE)
  kinds <- sort(unique(g))
  write("lda", fit$scaling)
  write("trace", fit$svd^2 / sum(fit$svd^2))
  write("put-back", unclass(table(factor(g, kinds), factor(predict(fit, x)$class, kinds))))
  write("left-out", unclass(table(factor(g, kinds), factor(left$class, kinds))))
  write("posterior", left$posterior)
  m <- manova(x ~ factor(g))
  write("manova", sapply(c("Pillai", "Wilks", "Hotelling-Lawley", "Roy"),
                         function(test) summary(m, test = test)$stats[1, 2:6]))
  large <- names(which(table(g) >= ncol(x) + 3))
  write("membership", membership(x, ifelse(g %in% large, g, "~"))[, seq_along(large)])
  h <- sapply(c("single", "complete", "average", "ward.D2", "ward.D"), function(method) {
    tree <- hclust(dist(x), method)
    c(tail(tree$height, 12), cor(dist(x), cophenetic(tree)))
  })
  write("clusters", h)
  set.seed(1)
  write("k-means", t(sapply(2:6, function(k) {
    km <- kmeans(x, k, nstart = 200, iter.max = 100)
    c(k, km$tot.withinss, mean(silhouette(km$cluster, dist(x))[, 3]))
  })))
}

# Glass: sodium, aluminium, silicon and calcium are never 0. As measured for clusters and the rest, in pivot log-ratios
# for a second run, and the variation of all parts but those with zeros.
major <- glass[, c("Na", "Al", "Si", "Ca")]
make("glass", major, glass$kind)
make("glass-ilr", ilr(major), glass$kind)
make("iris", flowers[, 3:6], flowers$species)

tau <- sapply(1:4, function(i) sapply(1:4, function(j) var(log(major[, i] / major[, j]))))
write_numbers(tau, "glass-variation.csv")

# Potassium with zeros: 0.65 of a limit of 0.02 put in, samples not closed.
k <- glass[, c("Na", "Al", "Si", "K", "Ca")]
k$K[k$K == 0] <- 0.65 * 0.02
clr <- log(as.matrix(k)) - rowMeans(log(as.matrix(k)))
write_numbers(prcomp(clr)$sdev^2, "glass-zeros.csv")
