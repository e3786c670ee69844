#!/usr/bin/env Rscript
# What other programs find in the tables beside this file, as expected.csv: table, quantity, row, column, value.
# Needs the Debian packages r-base-core, r-cran-mass, r-cran-vegan, r-cran-cluster and r-cran-ca; the tests read only
# what is written. Run in this folder: Rscript make.R
suppressPackageStartupMessages({library(MASS); library(vegan); library(cluster); library(ca)})

rows <- list()
put <- function(table, quantity, value, row = "", column = "") {
  rows[[length(rows) + 1]] <<- data.frame(table, quantity, row, column, value = sprintf("%.15g", value))
}
put_vector <- function(table, quantity, values, names) put(table, quantity, as.numeric(values), names)
put_matrix <- function(table, quantity, m) for (j in seq_len(ncol(m))) put(table, quantity, as.numeric(m[, j]), rownames(m), colnames(m)[j])

ordination <- function(name, t) {
  fit <- ca(t)
  k <- length(fit$sv)
  put_vector(name, "eigenvalue", fit$sv^2, seq_len(k))
  # ca gives standard coordinates; the sign of an axis is free, so that squares are kept.
  axes <- paste0(seq_len(k))
  standard <- fit$rowcoord; dimnames(standard) <- list(rownames(t), axes)
  put_matrix(name, "row standard squared", standard^2)
  columns <- fit$colcoord; dimnames(columns) <- list(colnames(t), axes)
  put_matrix(name, "column standard squared", columns^2)
  put_vector(name, "row mass", fit$rowmass, rownames(t))
  put_vector(name, "row inertia", fit$rowinertia, rownames(t))
  principal <- sweep(standard, 2, fit$sv, "*")
  put_matrix(name, "row quality", principal^2 / fit$rowdist^2)
  put(name, "first canonical correlation", corresp(as.matrix(t), nf = 1)$cor)
}

difference <- function(name, t) {
  test <- suppressWarnings(chisq.test(t, correct = FALSE))
  put(name, "chi square", unname(test$statistic))
  put(name, "p", test$p.value)
  put(name, "df", unname(test$parameter))
  put_matrix(name, "expected", test$expected)
  put_matrix(name, "adjusted residual", test$stdres)
  log_linear <- loglin(as.matrix(t), list(1, 2), print = FALSE)
  put(name, "g square", log_linear$lrt)
}

similarity <- function(name, t) {
  percent <- 100 * t / rowSums(t)
  put_matrix(name, "similarity", 200 - as.matrix(dist(percent, method = "manhattan")))
}

diversities <- function(name, t) {
  put_vector(name, "richness", specnumber(t), rownames(t))
  put_vector(name, "shannon", diversity(t), rownames(t))
  put_vector(name, "simpson", 1 - diversity(t, "simpson"), rownames(t))
  put_vector(name, "chao1 corrected", estimateR(t)["S.chao1", ], rownames(t))
  common <- min(rowSums(t))
  rare <- rarefy(t, common, se = TRUE)
  put_vector(name, "types at common n", rare["S", ], rownames(t))
  put_vector(name, "se of types at common n", rare["se", ], rownames(t))
  put(name, "common n", common)
}

clusters <- function(name, t) {
  percent <- 100 * t / rowSums(t)
  d <- dist(percent)
  for (linkage in c("single", "complete", "average", "ward.D2")) {
    tree <- hclust(d, linkage)
    label <- sub(".D2", "", linkage, fixed = TRUE)
    put_vector(name, paste("height", label), tree$height, seq_along(tree$height))
    put(name, paste("cophenetic", label), cor(d, cophenetic(tree)))
    if (nrow(t) > 4) {
      cut <- cutree(tree, 3)
      put_vector(name, paste("cluster", label), cut, rownames(t))
      put_vector(name, paste("silhouette", label), silhouette(cut, d)[, "sil_width"], rownames(t))
    }
  }
  if (nrow(t) > 4) {
    set.seed(1)
    put(name, "k-means within", kmeans(percent, 3, nstart = 500)$tot.withinss)
  }
}

dates <- function(name, t, years, axes) {
  fit <- ca(t)
  x <- sweep(fit$rowcoord, 2, fit$sv, "*")[, seq_len(axes), drop = FALSE]
  colnames(x) <- paste0("a", seq_len(axes))
  known <- !is.na(years)
  model <- lm(years ~ ., data = data.frame(years = years[known], x[known, , drop = FALSE]))
  found <- predict(model, data.frame(x), interval = "prediction")
  rownames(found) <- rownames(t); colnames(found) <- c("year", "low95", "high95")
  put_matrix(name, "date", found)
  put(name, "date r squared", summary(model)$r.squared)
  put(name, "date axes", axes)
  left <- years[known] - rstandard(model, type = "predictive")
  put_vector(name, "date left out", left, rownames(t)[known])
}

read <- function(name) {
  t <- read.csv(paste0(name, ".csv"), check.names = FALSE, row.names = 1)
  years <- NULL
  if ("year" %in% names(t)) { years <- t$year; t$year <- NULL }
  list(counts = as.matrix(t), years = years)
}

for (name in c("eyes", "caithness", "compiegne", "ties", "made")) {
  table <- read(name)
  t <- table$counts
  ordination(name, t); difference(name, t); similarity(name, t); diversities(name, t); clusters(name, t)
  if (!is.null(table$years)) dates(name, t, table$years, 2)
}

falls <- read.csv("falls.csv")
for (group in c("all", sort(unique(falls$by)))) {
  part <- if (group == "all") falls else falls[falls$by == group, ]
  exponential <- summary(lm(log(percent) ~ miles, part))
  put("falls", "exponential", exponential$coefficients[, 1], c("a", "b"), group)
  put("falls", "exponential se b", exponential$coefficients[2, 2], "", group)
  put("falls", "exponential r squared", exponential$r.squared, "", group)
  power <- summary(lm(log(percent) ~ log(miles), part))
  put("falls", "power", power$coefficients[, 1], c("a", "b"), group)
  general <- function(c) sum(residuals(lm(log(percent) ~ I(miles^c), part))^2)
  put("falls", "general exponent", optimize(general, c(0.05, 4), tol = 1e-12)$minimum, "", group)
}

# Hair by eye by sex of 592 students (R. D. Snee 1974, The American Statistician 28: 9-12, as packaged with R).
models <- list("hair; eye; sex" = list(1, 2, 3), "hair*eye; sex" = list(c(1, 2), 3), "hair*sex; eye" = list(c(1, 3), 2),
               "eye*sex; hair" = list(c(2, 3), 1), "hair*eye; hair*sex" = list(c(1, 2), c(1, 3)),
               "hair*eye; eye*sex" = list(c(1, 2), c(2, 3)), "hair*sex; eye*sex" = list(c(1, 3), c(2, 3)),
               "hair*eye; hair*sex; eye*sex" = list(c(1, 2), c(1, 3), c(2, 3)))
for (terms in names(models)) {
  fit <- loglin(HairEyeColor, models[[terms]], print = FALSE, eps = 1e-9, iter = 200)
  put("students", "log-linear", c(fit$lrt, fit$pearson, fit$df), c("g_square", "chi_square", "df"), terms)
}

write.csv(do.call(rbind, rows), "expected.csv", row.names = FALSE, quote = FALSE)
