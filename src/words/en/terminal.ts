/** What the terminal says around a result: help, headings and notices. */
const methods = "triangle, paired-preference or line-scale";
/** The same for `count`: values of a scale are more than a count. */
const counted = "triangle or paired-preference";

export const terminal = {
  help: `cloche: blinded sensory tests for a test kitchen, from a terminal

  cloche start                    run the server with the app
  cloche demo                     run it with an invented kitchen to look around in
  cloche trays PLAN               draw trays, codes and key from a plan file
  cloche result FILE              the result of answers in a CSV file, or of an exported study
  cloche count                    the result of one outcome, from its counts

  cloche COMMAND --help           options of a command (or -h)
  cloche --version

Results go to standard output, notices and errors to standard error. Exit code 2: the command or a file has to be
corrected; 1: something else went wrong.`,

  commandHelp: {
    count: `cloche count: the result of one outcome, from its counts

  --method METHOD    ${counted}
  --correct K        right answers of a triangle
  --of N             answers given to it
  --first K          people who preferred the first product of a preference
  --second M         people who preferred the second
  --none Z           people with no preference, where that was an answer (0)
  --none-rule RULE   what becomes of them: drop before the test, split evenly, or report as a third share (drop)
  --goal GOAL        difference, or for a triangle similarity: that fewer than a limit can tell (difference)
  --limit SHARE      share who can tell that still counts as alike, like 0.3; needed for similarity
  --beta SHARE       risk of calling more than the limit alike, at most 0.5 (0.05); similarity only
  --sides one|two    as the method has it: one for a triangle, two for a preference
  --alpha SHARE      risk of being fooled by chance, above 0 and at most 0.5 (0.05)
  --confidence SHARE of the two-sided interval for the share of right answers (0.95); triangle only
  --json             one JSON document with full precision
  -h, --help         this text

  cloche count --method triangle --correct 14 --of 24
  cloche count --method triangle --correct 20 --of 60 --goal similarity --limit 0.3
  cloche count --method paired-preference --first 19 --second 31 --none 10`,

    result: `cloche result FILE: the result of answers

FILE is a CSV file, or a study that the app exported (JSON). A CSV file has a header line; its columns may stand in
any order, and others are left unread.

  triangle           panelist, correct (1 right, 0 wrong); repeat (1, 2, …) if people answered more than once
  paired-preference  panelist, choice (the name of a product, or none); one line a person. The first product named
                     is the first of the result
  line-scale         panelist, product, value (left empty: no answer); repeat, attribute and moment where there was
                     more than one. Each attribute at each moment is one of its own; the first one named is the one
                     the question is about

  --method METHOD    ${methods}; an exported study names its own
  --goal GOAL        difference, or for a triangle similarity: that fewer than a limit can tell (difference)
  --limit SHARE      share who can tell that still counts as alike, like 0.3; needed for similarity
  --beta SHARE       risk of calling more than the limit alike, at most 0.5 (0.05); similarity only
  --none RULE        answers of no preference: drop before the test, split evenly, or report as a third share (drop)
  --sides one|two    as the method has it: one for a triangle, two for the others
  --alpha SHARE      risk of being fooled by chance, above 0 and at most 0.5 (0.05)
  --confidence SHARE of the two-sided interval for the share of right answers (0.95); triangle only
  --json             one JSON document with full precision
  -h, --help         this text

What a study has locked (method, goal, risks, rule) cannot be asked for otherwise.

  cloche result answers.csv --method triangle
  cloche result marks.csv --method line-scale --json`,

    trays: `cloche trays PLAN: draw trays, codes and key from a plan file

PLAN is a JSON file with the fields of a plan. Needed are people and two products; what is left out is as in a new
plan, without spare trays and with everybody in one wave:

  { "method": "triangle", "people": 24, "spares": 3,
    "products": [{ "name": "current" }, { "name": "new" }],
    "waves": [{ "starts": "11:15", "people": 24, "batches": { "current": ["1", "2"], "new": ["1", "2"] } }] }

  --seed HEX         seed of orders and batches, to repeat a draw; codes are drawn anew each time (a fresh seed)
  --blind FILE       write the blind half to a new file: tray, wave and codes in serving order
  --key FILE         write the sealed half to a new file: it tells which code is which product
  --json             print what is not written to a file as one JSON document
  -h, --help         this text

The sealed half is plain text here. Keep it from whoever serves or tastes.`,
  },

  /** Products that the counts or the file do not name. */
  unnamed: ["first product", "second product"] as const,

  headings: {
    numbers: "Numbers",
    notShown: "What this does not show",
    departures: "Departures from the plan",
    blind: "Blind half: codes in serving order",
    sealed: "Sealed half: which code is which. Keep it from whoever serves or tastes.",
  },
  trayColumns: { tray: "tray", wave: "wave", codes: "codes", order: "order", samples: "samples", spare: "spare" },
  study: (id: string) => `Study ${id}`,
  seed: (seed: string) => `Seed ${seed}`,
  commitment: (hash: string) => `Commitment ${hash}`,

  notices: {
    extraColumns: (columns: readonly string[]) =>
      `Not read: ${columns.length === 1 ? "the column" : "the columns"} ${columns.map((column) => `“${column}”`).join(", ")}.`,
    held: (events: number) =>
      `${events === 1 ? "One event" : `${events} events`} of the study come from a newer Cloche and were not used.`,
    brokenLinks: (events: number) =>
      `${events === 1 ? "One event does" : `${events} events do`} not follow what the same device wrote before: the file was changed, or a part is missing.`,
    missing: (events: number) =>
      `${events === 1 ? "One record that was" : `${events} records that were`} known when the study was closed or its key opened ${events === 1 ? "is" : "are"} missing from the file. The numbers may change.`,
    keyMismatch:
      "The opened key does not match the seal made at lock: there is no verdict. Compare the sealed page with the commitment.",
    spread:
      "Some people answered more than once. How much people differ (the spread between them) is not computed yet, so there are no bounds.",
    holdsKey: "This output holds the key: it tells which code is which product.",
    fileHoldsKey: (path: string) => `${path} holds the key: it tells which code is which product.`,
    oneWave: (people: number) =>
      `The plan names no waves: all ${people} people are in one wave, with one batch of each product.`,
    notReady: (parts: readonly string[]) =>
      `The trays are drawn, but the plan could not be locked yet. Open: ${parts.join(", ")}.`,
  },
  expected: {
    whole: (low: number, high: number) => `a whole number from ${low} to ${high}`,
    alpha: (most: number) => `a number above 0 and at most ${most}, like 0.05`,
    goal: "difference or similarity",
    onlyDifference: (method: string) => `difference: ${method} has no other goal`,
    sides: (method: string, sides: string) => `${sides}, as ${method} has it (no other is computed yet)`,
    similarityOnly: "left out: it belongs to --goal similarity",
    confidenceOfAlpha: "left out: the intervals of this method go with --alpha",
    limit: "a share between 0 and 1, like 0.3",
    beta: "a number above 0 and at most 0.5, like 0.05",
    noneRule: "drop, split or report",
    notOfMethod: (method: string) => `left out for ${method}`,
    countable: "triangle or paired-preference; values of a line scale go through cloche result",
    openShare: "a number between 0 and 1, like 0.05",
    hex: "2 to 128 hex digits",
    value: "followed by a value",
    noValue: "given without a value",
    methodOfStudy: (method: string) => `${method}, the method of the study`,
    locked: (value: string) => `left out: the study's plan locked ${value}`,
    leftOut: "left out for an exported study",
    fewerFields: "a plan: an object with people and products",
    people: "a whole number of people, at least 1",
  },
};
