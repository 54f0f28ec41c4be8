# Writes values.json beside this file: power of contrasts and of the F test in randomized complete and balanced
# incomplete blocks. Run: Rscript make.R. Nothing here lies in R's far noncentral tails, which are not to be trusted.
number <- function(x) format(x, digits = 17, trim = TRUE)
pair <- function(n, k, m, r, alpha, d, s) {
  whole <- n * (m - 1) / (k - 1)
  df <- n * (m - 1) - (k - 1)
  ncp <- d / (s * sqrt(2 / (whole * r)))
  critical <- qt(alpha / 2 / choose(k, 2), df, lower.tail = FALSE)
  pt(critical, df, ncp, lower.tail = FALSE) + pt(-critical, df, ncp)
}
# the means themselves, summed as a textbook does: two at the ends, the others half way
overall <- function(n, k, m, r, alpha, d, s) {
  means <- c(-d / 2, d / 2, rep(0, k - 2))
  whole <- n * (m - 1) / (k - 1)
  df <- n * (m - 1) - (k - 1)
  lambda <- whole * r * sum((means - mean(means))^2) / s^2
  pf(qf(alpha, k - 1, df, lower.tail = FALSE), k - 1, df, lambda, lower.tail = FALSE)
}
plans <- list(
  c(12, 2, 2, 1, 0.05, 8, 12), c(20, 2, 2, 1, 0.05, 8, 12), c(38, 2, 2, 1, 0.05, 8, 12), c(8, 2, 2, 2, 0.05, 10, 9),
  c(12, 3, 3, 1, 0.05, 8, 12), c(12, 3, 3, 1, 0.05, 10, 7.83619547969291), c(30, 3, 3, 1, 0.05, 8, 12),
  c(24, 4, 4, 1, 0.01, 6, 10), c(24, 4, 4, 2, 0.1, 6, 10), c(40, 6, 6, 1, 0.05, 5, 12), c(28, 7, 3, 1, 0.05, 12, 10),
  c(20, 6, 3, 1, 0.05, 15, 12), c(3, 2, 2, 1, 0.05, 20, 10), c(6, 2, 2, 1, 0.2, 2, 12)
)
row <- function(p) sprintf(
  '  { "people": %d, "products": %d, "perTray": %d, "repeats": %d, "alpha": %s, "difference": %s, "deviation": %s, "pair": %s, "overall": %s }',
  p[1], p[2], p[3], p[4], number(p[5]), number(p[6]), number(p[7]), number(do.call(pair, as.list(p))), number(do.call(overall, as.list(p)))
)
# R's own function for two products in pairs: its sd is that of the differences within people
paired <- function(d, s, power) {
  found <- power.t.test(delta = d, sd = s * sqrt(2), power = power, type = "paired", strict = TRUE)$n
  sprintf('  { "difference": %s, "deviation": %s, "power": %s, "people": %d }', number(d), number(s), number(power), ceiling(found))
}
pairs <- c(paired(8, 12, 0.8), paired(8, 12, 0.9), paired(5, 10, 0.8), paired(10, 10, 0.9), paired(20, 12, 0.8), paired(2, 10, 0.8))
smallest <- function(n, s, power) {
  found <- power.t.test(n = n, sd = s * sqrt(2), power = power, type = "paired", strict = TRUE, tol = 1e-12)$delta
  sprintf('  { "people": %d, "deviation": %s, "power": %s, "difference": %s }', n, number(s), number(power), number(found))
}
deltas <- c(smallest(12, 12, 0.8), smallest(24, 10, 0.8), smallest(6, 8, 0.9), smallest(60, 15, 0.8))
limit <- function(s, df, confidence) sprintf(
  '  { "deviation": %s, "df": %d, "confidence": %s, "most": %s }',
  number(s), df, number(confidence), number(s * sqrt(df / qchisq(1 - confidence, df)))
)
limits <- c(limit(7.83619547969291, 22, 0.8), limit(10, 5, 0.8), limit(10, 1, 0.8), limit(12, 200, 0.95), limit(12, 46, 0.9))
# several trays a person, of whose scatter `seen` is people by products: variance of a mean of r marks, components added up
seen <- function(n, k, r, alpha, d, s, seen) {
  variance <- 2 / n * (seen^2 + (s^2 - seen^2) / r)
  df <- (n - 1) * (k - 1)
  critical <- qt(alpha / 2 / choose(k, 2), df, lower.tail = FALSE)
  power <- pt(critical, df, d / sqrt(variance), lower.tail = FALSE) + pt(-critical, df, d / sqrt(variance))
  sprintf('  { "people": %d, "products": %d, "repeats": %d, "alpha": %s, "difference": %s, "deviation": %s, "seen": %s, "pair": %s }',
    n, k, r, number(alpha), number(d), number(s), number(seen), number(power))
}
seens <- c(seen(12, 2, 2, 0.05, 8, 12, 6), seen(12, 3, 3, 0.05, 10, 9, 8), seen(10, 4, 4, 0.1, 6, 10, 0), seen(24, 2, 2, 0.05, 6, 10, 10))
list_of <- function(rows) paste(rows, collapse = ",\n")
writeLines(c(
  "{",
  ' "id": "scale-size-by-r",',
  ' "title": "Power of contrasts and of the F test of products with panelists as blocks",',
  sprintf(' "source": { "what": "computed by make.R: pt and pf with ncp, qt, qf, qchisq, power.t.test", "madeBy": "%s" },', R.version.string),
  ' "seenInSource": false,',
  ' "plans": [', list_of(vapply(plans, row, "")), " ],",
  ' "pairs": [', list_of(pairs), " ],",
  ' "smallest": [', list_of(deltas), " ],",
  ' "seen": [', list_of(seens), " ],",
  ' "limits": [', list_of(limits), " ]",
  "}"
), "values.json")
