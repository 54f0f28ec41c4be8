# Writes values.json beside this file: sessions held against each other by fisher.test, and by chisq.test without
# correction. Run: Rscript make.R
cases <- list(
  rbind(c(4, 3), c(4, 1)), rbind(c(12, 9), c(12, 4)), rbind(c(6, 5), c(7, 2), c(5, 4)), rbind(c(10, 1), c(10, 4), c(10, 6), c(10, 3)),
  rbind(c(3, 3), c(8, 5), c(2, 0), c(9, 3), c(6, 6)), rbind(c(30, 20), c(28, 12), c(31, 15)), rbind(c(12, 6), c(12, 6), c(12, 7)),
  rbind(c(60, 41), c(60, 22)), rbind(c(25, 10), c(25, 12), c(25, 9), c(25, 13), c(24, 20))
)
row <- function(x) {
  table <- cbind(x[, 2], x[, 1] - x[, 2])
  sprintf('  { "sessions": [%s], "fisher": %s, "chiSquare": %s }',
    paste(apply(x, 1, function(s) sprintf("[%s]", paste(s, collapse = ", "))), collapse = ", "),
    format(fisher.test(table, workspace = 2e7)$p.value, digits = 15),
    format(suppressWarnings(chisq.test(table, correct = FALSE))$p.value, digits = 15))
}
writeLines(c(
  "{",
  ' "id": "sessions-by-r",',
  ' "title": "Heterogeneity of sessions",',
  sprintf(' "source": { "what": "computed by make.R: fisher.test, chisq.test", "madeBy": "%s" },', R.version.string),
  ' "seenInSource": false,',
  ' "columns": ["sessions: answers, right"],',
  ' "rows": [', paste(vapply(cases, row, ""), collapse = ",\n"), " ]",
  "}"
), "values.json")
