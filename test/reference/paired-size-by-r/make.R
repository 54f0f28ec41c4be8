# Writes values.json beside this file: people and power of paired t tests, two-sided; sd is that of one person's difference.
# Run: Rscript make.R
number <- function(x) format(x, digits = 17, trim = TRUE)
people <- function(delta, sd, alpha, power) {
  found <- power.t.test(delta = delta, sd = sd, sig.level = alpha, power = power, type = "paired", strict = TRUE)$n
  sprintf('  { "difference": %s, "deviation": %s, "alpha": %s, "power": %s, "people": %d }',
    number(delta), number(sd), number(alpha), number(power), ceiling(found))
}
chance <- function(n, delta, sd, alpha) {
  found <- power.t.test(n = n, delta = delta, sd = sd, sig.level = alpha, type = "paired", strict = TRUE)$power
  sprintf('  { "people": %d, "difference": %s, "deviation": %s, "alpha": %s, "power": %s }',
    n, number(delta), number(sd), number(alpha), number(found))
}
smallest <- function(n, sd, alpha, power) {
  found <- power.t.test(n = n, sd = sd, sig.level = alpha, power = power, type = "paired", strict = TRUE, tol = 1e-12)$delta
  sprintf('  { "people": %d, "deviation": %s, "alpha": %s, "power": %s, "difference": %s }',
    n, number(sd), number(alpha), number(power), number(found))
}
list_of <- function(name, rows) paste0('"', name, '": [\n', paste(rows, collapse = ",\n"), "\n]")
text <- paste0("{\n", paste(c(
  sprintf('"version": "%s"', R.version.string),
  list_of("people", c(people(2, 2.5, 0.05, 0.8), people(3, 4, 0.05, 0.9), people(1, 3, 0.1, 0.8), people(2, 2.5, 0.025, 0.8))),
  list_of("power", c(chance(12, 2, 2.5, 0.05), chance(12, 3, 4, 0.05), chance(6, 5, 3, 0.01), chance(12, 2, 2.5, 0.025))),
  list_of("difference", c(smallest(12, 2.5, 0.05, 0.8), smallest(20, 4, 0.025, 0.9)))
), collapse = ",\n"), "\n}\n")
writeLines(text, "values.json", sep = "")
