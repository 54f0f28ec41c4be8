# Writes values.json beside this file: p-values adjusted by R's p.adjust, method "holm". Run: Rscript make.R
cases <- list(
  c(0.01, 0.04, 0.03),
  c(0.0121, 0.0003, 0.6612),
  c(0.05, 0.05, 0.05, 0.05),
  c(0.9, 0.8, 0.001),
  c(1e-300, 0.5, 2e-17, 0.0249, 0.025, 1),
  c(0.049),
  c(0.2, 0.011, 0.0501, 0.3, 0.7, 0.0099, 0.04, 0.002, 0.12, 0.06)
)
number <- function(values) paste(format(values, digits = 17, trim = TRUE), collapse = ", ")
row <- function(p) sprintf('  { "pValues": [%s], "adjusted": [%s] }', number(p), number(p.adjust(p, "holm")))
writeLines(c(
  "{",
  ' "id": "holm-by-r",',
  ' "title": "P-values adjusted after Holm",',
  sprintf(' "source": { "what": "computed by make.R, p.adjust(p, \\"holm\\")", "madeBy": "%s" },', R.version.string),
  ' "seenInSource": false,',
  ' "rows": [',
  paste(vapply(cases, row, ""), collapse = ",\n"),
  " ]",
  "}"
), "values.json")
