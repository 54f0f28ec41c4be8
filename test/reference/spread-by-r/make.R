# Writes values.json beside this file: beta-binomial fits by optim on the log odds of mean and overdispersion, with the
# density through lbeta; profile intervals by optimize and uniroot; Pearson's chi-square by pchisq. Run: Rscript make.R
density_log <- function(x, n, mean, gamma, guess) {
  a <- mean * (1 / gamma - 1)
  b <- (1 - mean) * (1 / gamma - 1)
  if (guess == 0) return(lchoose(n, x) + lbeta(a + x, b + n - x) - lbeta(a, b))
  known <- 0:x
  terms <- lchoose(n, x) + lchoose(x, known) + (x - known) * log(guess) + (n - x) * log1p(-guess) +
    lbeta(a + known, b + n - known) - lbeta(a, b)
  max(terms) + log(sum(exp(terms - max(terms))))
}
likelihood <- function(mean, gamma, x, n, guess) sum(mapply(density_log, x, n, mean, gamma, guess))
alike <- function(x, n, guess) {
  share <- max(sum(x) / sum(n), guess)
  sum(dbinom(x, n, share, log = TRUE))
}
over <- function(f) {
  grid <- seq(-12, 12, by = 0.5)
  best <- grid[which.max(sapply(grid, f))]
  optimize(f, best + c(-0.6, 0.6), maximum = TRUE, tol = 1e-12)$objective
}
fit <- function(x, n, guess, confidence = 0.95) {
  target <- function(par) -likelihood(plogis(par[1]), plogis(par[2]), x, n, guess)
  starts <- expand.grid(c(-1, 0, 1), c(-2, 0, 2))
  runs <- lapply(seq_len(nrow(starts)), function(i)
    optim(unlist(starts[i, ]), target, method = "BFGS", control = list(reltol = 1e-15, maxit = 2000)))
  best <- runs[[which.min(sapply(runs, function(r) r$value))]]
  top <- -best$value
  estimate <- plogis(best$par)
  of_mean <- function(m) over(function(g) likelihood(m, plogis(g), x, n, guess))
  of_gamma <- function(g) over(function(m) likelihood(plogis(m), g, x, n, guess))
  reach <- qchisq(confidence, 1) / 2
  edge <- function(profile, end, at) {
    f <- function(v) profile(v) - top + reach
    if (f(end) >= 0) return(round(end))
    uniroot(f, sort(c(end, at)), tol = 1e-13)$root
  }
  tiny <- 1e-7
  ratio <- 2 * (top - alike(x, n, guess))
  c(estimate[1], edge(of_mean, tiny, estimate[1]), edge(of_mean, 1 - tiny, estimate[1]),
    estimate[2], edge(of_gamma, tiny, estimate[2]), edge(of_gamma, 1 - tiny, estimate[2]),
    pchisq(ratio, 1, lower.tail = FALSE) / 2, pnorm(-sqrt(2 * (top - of_mean(0.6)))) )
}
cases <- list(
  list(x = c(3, 3, 3, 3, 2, 2, 2, 1, 1, 1, 1, 0), n = rep(3, 12), choices = 2),
  list(x = c(4, 4, 4, 0, 0, 1, 4, 0, 3, 4), n = rep(4, 10), choices = 3),
  list(x = c(1, 5, 2, 6, 0, 3, 8, 4), n = c(4, 6, 5, 6, 3, 4, 8, 7), choices = 3),
  list(x = c(10, 12, 2, 7, 11, 5, 12, 1), n = rep(12, 8), choices = 2)
)
number <- function(values) paste(format(values, digits = 15, trim = TRUE), collapse = ", ")
row <- function(case) {
  share <- sum(case$x) / sum(case$n)
  chi <- sum((case$x - case$n * share)^2 / (case$n * share * (1 - share)))
  p <- pchisq(chi, length(case$x) - 1, lower.tail = FALSE)
  sprintf('  { "right": [%s], "of": [%s], "choices": %d, "plain": [%s], "corrected": [%s], "chiSquare": [%s] }',
    number(case$x), number(case$n), case$choices, number(fit(case$x, case$n, 0)),
    number(fit(case$x, case$n, 1 / case$choices)), number(c(chi, length(case$x) - 1, p)))
}
writeLines(c(
  "{",
  ' "id": "spread-by-r",',
  ' "title": "Beta-binomial fits of people\'s counts, with and without guessing built in",',
  sprintf(' "source": { "what": "computed by make.R: optim, optimize, uniroot, pchisq", "madeBy": "%s" },', R.version.string),
  ' "seenInSource": false,',
  ' "columns": ["mean", "low", "high", "overdispersion", "low", "high", "p of no spread", "p of mean below 0.6 (if the estimate is)"],',
  ' "rows": [',
  paste(vapply(cases, row, ""), collapse = ",\n"),
  " ]",
  "}"
), "values.json")
