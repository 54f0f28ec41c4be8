# Writes values.json beside this file: signed distance of a two-sided paired difference. Exact bounds by binom.test's
# interval through sqrt(2) qnorm; profile by uniroot on the log likelihood; standard error by optimHess. Run: Rscript make.R
cases <- list(c(18, 6), c(6, 18), c(31, 19), c(12, 12), c(41, 7), c(3, 40), c(70, 61))
row <- function(x) {
  n <- sum(x)
  exact <- sqrt(2) * qnorm(binom.test(x[1], n, conf.level = 0.95)$conf.int)
  log_of <- function(d) dbinom(x[1], n, pnorm(d / sqrt(2)), log = TRUE)
  d <- sqrt(2) * qnorm(x[1] / n)
  off <- function(v) log_of(v) - log_of(d) + qchisq(0.9, 1) / 2
  edge <- function(to) uniroot(off, sort(c(d, to)), tol = 1e-14)$root
  information <- -optimHess(d, log_of, control = list(ndeps = 1e-4))
  score <- prop.test(x[1], n, correct = FALSE, conf.level = 0.95)$conf.int
  number <- function(values) paste(format(values, digits = 15, trim = TRUE), collapse = ", ")
  sprintf('  { "votes": [%s], "dPrime": [%s], "profile": [%s], "standardError": %s, "score": [%s] }',
    paste(x, collapse = ", "), number(c(d, exact)), number(c(edge(d - 6), edge(d + 6))), number(1 / sqrt(information[1])), number(score))
}
writeLines(c(
  "{",
  ' "id": "pair-distance-by-r",',
  ' "title": "Two-sided paired difference: signed d-prime",',
  sprintf(' "source": { "what": "computed by make.R: binom.test, prop.test, uniroot, optimHess", "madeBy": "%s" },', R.version.string),
  ' "seenInSource": false,',
  ' "columns": ["dPrime: estimate, 95 % exact", "profile: 90 %", "score: 95 % of the first share"],',
  ' "rows": [', paste(vapply(cases, row, ""), collapse = ",\n"), " ]",
  "}"
), "values.json")
