# Choice tests by R: binom.test, prop.test, uniroot, fisher.test, pbinom. Run: Rscript make.R
number <- function(x) ifelse(is.na(x), "null", formatC(x, digits = 17, format = "g"))
row <- function(...) paste0("  [", paste(c(...), collapse = ", "), "]")

tests <- c(); scores <- c(); profiles <- c(); distances <- c(); powers <- c(); groups <- c()
for (case in list(c(14, 24, 1/3), c(8, 24, 1/3), c(2, 24, 1/3), c(22, 36, 1/2), c(10, 18, 1/3), c(18, 24, 1/2),
                  c(13, 24, 1/3), c(0, 12, 1/3), c(12, 12, 1/2), c(120, 300, 1/3), c(560, 1000, 1/2))) {
  k <- case[1]; n <- case[2]; p0 <- case[3]
  for (level in c(0.9, 0.95, 0.99)) {
    two <- binom.test(k, n, p0, conf.level = level)$conf.int
    lower <- binom.test(k, n, p0, "greater", conf.level = level)$conf.int[1]
    upper <- binom.test(k, n, p0, "less", conf.level = level)$conf.int[2]
    tests <- c(tests, row(k, n, number(p0), level, number(binom.test(k, n, p0, "greater")$p.value),
      number(two[1]), number(two[2]), number(lower), number(upper)))
    score <- suppressWarnings(prop.test(k, n, correct = FALSE, conf.level = level))$conf.int
    scores <- c(scores, row(k, n, level, number(score[1]), number(score[2])))
    if (k > 0 && k < n) {
      fall <- function(p) 2 * (dbinom(k, n, k / n, log = TRUE) - dbinom(k, n, p, log = TRUE)) - qchisq(level, 1)
      profiles <- c(profiles, row(k, n, level,
        number(uniroot(fall, c(1e-12, k / n), tol = 1e-15)$root), number(uniroot(fall, c(k / n, 1 - 1e-12), tol = 1e-15)$root)))
    }
  }
}

share <- list(
  "paired-difference" = function(d) pnorm(d / sqrt(2)),
  "three-alternative" = function(d) integrate(function(z) dnorm(z - d) * pnorm(z)^2, -Inf, Inf, rel.tol = 1e-12)$value,
  "triangle" = function(d) 2 * integrate(function(z) dnorm(z) * (pnorm(d * sqrt(2 / 3) - z * sqrt(3)) + pnorm(-d * sqrt(2 / 3) - z * sqrt(3))), 0, Inf, rel.tol = 1e-12)$value,
  "duo-trio" = function(d) 1 - pnorm(d / sqrt(2)) - pnorm(d / sqrt(6)) + 2 * pnorm(d / sqrt(2)) * pnorm(d / sqrt(6)),
  "tetrad" = function(d) 1 - 2 * integrate(function(z) dnorm(z) * (2 * pnorm(z) * pnorm(z - d) - pnorm(z - d)^2), -Inf, Inf, rel.tol = 1e-12)$value
)
for (method in names(share)) for (right in c(0.55, 0.62, 0.75, 0.9)) {
  root <- uniroot(function(d) share[[method]](d) - right, c(0, 12), tol = 1e-13)$root
  distances <- c(distances, row(paste0('"', method, '"'), right, number(root)))
}

for (case in list(c(24, 1/3, 0.05, 0.3), c(60, 1/2, 0.05, 0.3), c(36, 1/2, 0.01, 0.5), c(240, 1/3, 0.1, 0.15))) {
  needed <- qbinom(case[3], case[1], case[2], lower.tail = FALSE) + 1
  powers <- c(powers, row(case[1], number(case[2]), case[3], case[4], needed,
    number(pbinom(needed - 1, case[1], case[2] + (1 - case[2]) * case[4], lower.tail = FALSE))))
}

for (case in list(c(9, 12, 4, 12), c(3, 3, 0, 3), c(22, 30, 14, 30), c(5, 20, 9, 20), c(45, 60, 33, 61), c(150, 200, 101, 200))) {
  table <- matrix(c(case[1], case[2] - case[1], case[3], case[4] - case[3]), 2)
  groups <- c(groups, row(case, number(fisher.test(table, alternative = "greater")$p.value)))
}

part <- function(name, columns, rows)
  paste0(' "', name, '": { "columns": [', paste0('"', columns, '"', collapse = ", "), '], "rows": [\n', paste(rows, collapse = ",\n"), "\n ] }")
text <- c("{", ' "id": "choice-by-r",',
  ' "title": "Sampled cases of choice tests",',
  paste0(' "source": { "what": "computed by make.R: binom.test, prop.test, uniroot, pbinom, fisher.test", "madeBy": "', R.version.string, '" },'),
  ' "seenInSource": false,',
  paste(c(
    part("tests", c("correct", "n", "p0", "level", "pValue", "low", "high", "lower", "upper"), tests),
    part("scores", c("correct", "n", "level", "low", "high"), scores),
    part("profiles", c("correct", "n", "level", "low", "high"), profiles),
    part("distances", c("method", "right", "dPrime"), distances),
    part("powers", c("n", "p0", "alpha", "discriminatorShare", "needed", "power"), powers),
    part("groups", c("firstTold", "first", "secondTold", "second", "pValue"), groups)), collapse = ",\n"), "}")
writeLines(text, "values.json")
