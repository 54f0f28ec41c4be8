# R's side of goal 12. Argument: a CSV file with panelist, product, attribute and value.
# Then one word a line on standard input: "numbers" prints count, mean and standard deviation of each group, product after
# product within each attribute; a count prints the seconds for so many times.
data <- read.csv(commandArgs(trailingOnly = TRUE)[1], colClasses = c("factor", "factor", "factor", "numeric"))
described <- function() {
  groups <- data[c("product", "attribute")]
  list(tapply(data$value, groups, length), tapply(data$value, groups, mean), tapply(data$value, groups, sd))
}
input <- file("stdin", open = "r")
while (length(line <- readLines(input, 1)) > 0) {
  if (line == "numbers") {
    found <- described()
    cat(paste(formatC(rbind(c(found[[1]]), c(found[[2]]), c(found[[3]])), digits = 17, format = "g"), collapse = ","), "\n", sep = "")
  } else {
    passes <- as.integer(line)
    start <- Sys.time()
    for (pass in seq_len(passes)) described()
    cat(sprintf("%.9f\n", as.numeric(Sys.time() - start, units = "secs")))
  }
  flush(stdout())
}
