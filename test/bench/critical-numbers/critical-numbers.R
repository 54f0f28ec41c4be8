# R's side of goal 9. It stays open between rounds, so that its start is never part of a figure.
# Arguments: least n, greatest n, risks, shares right by guessing (the last two as expressions, with commas).
# Then one word a line on standard input: "numbers" prints them all, a count prints the seconds for so many passes.
given <- commandArgs(trailingOnly = TRUE)
listed <- function(text) sapply(strsplit(text, ",")[[1]], function(one) eval(parse(text = one)), USE.NAMES = FALSE)
# the first one changes fastest
grid <- expand.grid(n = as.integer(given[1]):as.integer(given[2]), alpha = listed(given[3]), p = listed(given[4]))
n <- grid$n
alpha <- grid$alpha
p <- grid$p
# the least x with P(X > x) <= alpha; one more is the least that is reached with probability alpha or less
numbers <- function() qbinom(alpha, n, p, lower.tail = FALSE) + 1

input <- file("stdin", open = "r")
while (length(line <- readLines(input, 1)) > 0) {
  if (line == "numbers") {
    cat(paste(numbers(), collapse = ","), "\n", sep = "")
  } else {
    passes <- as.integer(line)
    start <- Sys.time()
    for (pass in seq_len(passes)) numbers()
    cat(sprintf("%.9f\n", as.numeric(Sys.time() - start, units = "secs")))
  }
  flush(stdout())
}
