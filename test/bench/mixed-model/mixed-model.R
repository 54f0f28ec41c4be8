# R's side of goal 10. Arguments: one CSV file with panelist, product and value for each model.
# Then one word a line on standard input: "numbers" prints, model after model, the deviations of panelists, of panelists with
# products and of what is left, then each product less the first; a count prints the seconds for so many fits of all of them.
given <- commandArgs(trailingOnly = TRUE)
found <- suppressPackageStartupMessages(requireNamespace("lme4", quietly = TRUE))
sets <- lapply(given, read.csv, colClasses = c("factor", "factor", "numeric"))
# as exact as lme4 is asked to be by default; that a spread is 0 is what one of the sets is for, so it need not say so
fit <- function(data) suppressMessages(lme4::lmer(value ~ product + (1 | panelist) + (1 | panelist:product), data))
numbers <- function(data) {
  model <- fit(data)
  spread <- as.data.frame(lme4::VarCorr(model))
  of <- function(group) spread$sdcor[spread$grp == group]
  c(of("panelist"), of("panelist:product"), of("Residual"), lme4::fixef(model)[-1])
}

input <- file("stdin", open = "r")
while (length(line <- readLines(input, 1)) > 0) {
  if (line == "numbers") {
    cat(if (found) paste(formatC(unlist(lapply(sets, numbers)), digits = 17, format = "g"), collapse = ",") else "", "\n", sep = "")
  } else {
    passes <- as.integer(line)
    start <- Sys.time()
    for (pass in seq_len(passes)) for (data in sets) fit(data)
    cat(sprintf("%.9f\n", as.numeric(Sys.time() - start, units = "secs")))
  }
  flush(stdout())
}
