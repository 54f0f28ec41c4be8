/** What the terminal says around a result: help, headings and notices. */
const methods = "triangle";

export const terminal = {
  help: `cloche: blinded sensory tests for a test kitchen, from a terminal

  cloche start                    run the server with the app
  cloche demo                     run it with an invented kitchen to look around in
  cloche trays PLAN               draw trays, codes and key from a plan file
  cloche result FILE              the result of answers in a CSV file, or of an exported study
  cloche count                    the result of one outcome: so many right of so many

  cloche COMMAND --help           options of a command (or -h)
  cloche --version

Results go to standard output, notices and errors to standard error. Exit code 2: the command or a file has to be
corrected; 1: something else went wrong.`,

  commandHelp: {
    count: `cloche count: the result of one outcome of a choice test

  --method METHOD    ${methods}
  --correct K        right answers
  --of N             answers given
  --goal difference  what the test is to show; no other goal is computed yet
  --sides one        as the triangle has it; no other is computed yet
  --alpha SHARE      risk of being fooled by chance, above 0 and at most 0.5 (0.05)
  --confidence SHARE of the two-sided interval for the share of right answers (0.95)
  --json             one JSON document with full precision
  -h, --help         this text

  cloche count --method triangle --correct 14 --of 24`,

    result: `cloche result FILE: the result of answers

FILE is a CSV file, or a study that the app exported (JSON). A CSV file has a header line and the columns panelist,
correct (1 right, 0 wrong) and, if people answered more than once, repeat (1, 2, …), in any order.

  --method METHOD    ${methods}; an exported study names its own
  --goal difference  what the test is to show; no other goal is computed yet
  --sides one        as the triangle has it; no other is computed yet
  --alpha SHARE      risk of being fooled by chance, above 0 and at most 0.5 (0.05); a locked plan has its own
  --confidence SHARE of the two-sided interval for the share of right answers (0.95); not for a study
  --json             one JSON document with full precision
  -h, --help         this text

  cloche result answers.csv --method triangle`,

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
    goal: "difference (no other goal is computed yet)",
    sides: (method: string, sides: string) => `${sides}, as the ${method} has it (no other is computed yet)`,
    openShare: "a number between 0 and 1, like 0.05",
    hex: "2 to 128 hex digits",
    value: "followed by a value",
    noValue: "given without a value",
    methodOfStudy: (method: string) => `${method}, the method of the study`,
    lockedAlpha: (alpha: number) => `left out: the study's plan locked ${alpha}`,
    leftOut: "left out for an exported study",
    fewerFields: "a plan: an object with people and products",
    people: "a whole number of people, at least 1",
  },
};
