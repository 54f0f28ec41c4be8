# Writes values.json beside this file: two kinds of trays, four counts. p by fisher.test; odds by uniroot on the
# noncentral hypergeometric from dhyper; d-prime by qnorm and uniroot, its profile by optimize; power by summing dbinom
# over phyper. Run: Rscript make.R
odds <- function(x, m, n, k, alpha) {
  support <- max(0, k - n):min(m, k)
  logs <- dhyper(support, m, n, k, log = TRUE)
  weights <- function(l) { w <- logs + support * l; w <- exp(w - max(w)); w / sum(w) }
  solve <- function(f) exp(uniroot(f, c(-60, 60), tol = 1e-14)$root)
  at_end <- x == max(support)
  c(if (x == min(support)) 0 else if (at_end) NA else solve(function(l) sum(support * weights(l)) - x),
    if (x == min(support)) 0 else solve(function(l) log(sum(weights(l)[support >= x]) / alpha)))
}
told <- list(
  "a-not-a" = list(
    unlike = function(d, c) pnorm(c - d, lower.tail = FALSE), like = function(c) pnorm(c, lower.tail = FALSE),
    line = function(f) -qnorm(f), least = -8),
  "same-different" = list(
    unlike = function(d, c) pnorm((c - d) / sqrt(2), lower.tail = FALSE) + pnorm((-c - d) / sqrt(2)),
    like = function(c) 2 * pnorm(-c / sqrt(2)), line = function(f) -sqrt(2) * qnorm(f / 2), least = 0)
)
log_of <- function(x, n, p) (if (x > 0) x * log(p) else 0) + (if (n > x) (n - x) * log1p(-p) else 0)
profile <- function(model, d, x1, n1, x2, n2) {
  f <- function(c) log_of(x1, n1, model$unlike(d, c)) + log_of(x2, n2, model$like(c))
  grid <- seq(model$least, d + 10, length.out = 400)
  best <- grid[which.max(sapply(grid, f))]
  optimize(f, c(max(model$least, best - 0.1), best + 0.1), maximum = TRUE, tol = 1e-13)$objective
}
distance <- function(model, x1, n1, x2, n2, alpha, confidence) {
  c <- model$line(x2 / n2)
  d <- uniroot(function(d) model$unlike(d, c) - x1 / n1, c(0, 20), tol = 1e-14)$root
  top <- log_of(x1, n1, x1 / n1) + log_of(x2, n2, x2 / n2)
  edge <- function(reach, from, to) {
    f <- function(d) profile(model, d, x1, n1, x2, n2) - top + reach
    if (f(from) >= 0) return(from)
    uniroot(f, c(from, to), tol = 1e-13)$root
  }
  # observed information by central differences
  f <- function(p) log_of(x1, n1, model$unlike(p[1], p[2])) + log_of(x2, n2, model$like(p[2]))
  information <- -optimHess(c(d, c), f, control = list(ndeps = c(1e-4, 1e-4)))
  two <- qchisq(confidence, 1) / 2
  f_high <- function(to) profile(model, to, x1, n1, x2, n2) - top + two
  high <- uniroot(f_high, c(d, 15), tol = 1e-13)$root
  c(d, edge(qnorm(1 - alpha)^2 / 2, 0, d), edge(two, 0, d), high, sqrt(solve(information)[1, 1]), c)
}
power <- function(model, n1, n2, alpha, d) {
  c <- uniroot(function(c) model$unlike(d, c) + model$like(c) - 1, c(max(model$least, -1), d + 8), tol = 1e-14)$root
  grid <- expand.grid(x1 = 0:n1, x2 = 0:n2)
  p <- phyper(grid$x1 - 1, n1, n2, grid$x1 + grid$x2, lower.tail = FALSE)
  sum(dbinom(grid$x1, n1, model$unlike(d, c)) * dbinom(grid$x2, n2, model$like(c)) * (p <= alpha))
}
number <- function(values) paste(ifelse(is.na(values), "null", format(values, digits = 15, trim = TRUE)), collapse = ", ")
row <- function(method, x1, n1, x2, n2, alpha) {
  test <- fisher.test(matrix(c(x1, n1 - x1, x2, n2 - x2), 2), alternative = "greater")
  d <- if (x1 / n1 > x2 / n2 && x1 < n1 && x2 > 0) distance(told[[method]], x1, n1, x2, n2, alpha, 0.95) else rep(NA, 6)
  sprintf('  { "method": "%s", "counts": [%d, %d, %d, %d], "alpha": %s, "p": %s, "odds": [%s], "distance": [%s] }',
    method, x1, n1, x2, n2, format(alpha), number(test$p.value), number(odds(x1, n1, n2, x1 + x2, alpha)), number(d))
}
counts <- list(c(12, 20, 5, 20), c(9, 12, 6, 12), c(30, 48, 20, 48), c(18, 25, 3, 20), c(7, 10, 0, 10), c(10, 10, 4, 10),
  c(5, 10, 5, 10), c(3, 15, 9, 15), c(51, 60, 40, 60), c(1, 20, 0, 20), c(140, 200, 110, 200))
rows <- unlist(lapply(names(told), function(method) sapply(counts, function(x) row(method, x[1], x[2], x[3], x[4], 0.05))))
powers <- unlist(lapply(names(told), function(method) sapply(list(c(12, 0.05, 1), c(24, 0.1, 1.5), c(60, 0.05, 1), c(61, 0.05, 2)),
  function(x) sprintf('  { "method": "%s", "people": %d, "alpha": %s, "dPrime": %s, "power": %s }', method, x[1], format(x[2]), format(x[3]),
    number(power(told[[method]], floor(x[1] / 2), x[1] - floor(x[1] / 2), x[2], x[3]))))))
writeLines(c(
  "{",
  ' "id": "kinds-by-r",',
  ' "title": "Same-different and A-not-A: exact test, odds, d-prime, power",',
  sprintf(' "source": { "what": "computed by make.R: fisher.test, dhyper, uniroot, optimize, optimHess", "madeBy": "%s" },', R.version.string),
  ' "seenInSource": false,',
  ' "columns": ["counts: unlike told, unlike, like told, like", "odds: estimate, lower", "distance: d-prime, lower at 1 - alpha, 95 % low and high, standard error, criterion"],',
  ' "rows": [', paste(rows, collapse = ",\n"), " ],",
  ' "powers": [', paste(powers, collapse = ",\n"), " ]",
  "}"
), "values.json")
