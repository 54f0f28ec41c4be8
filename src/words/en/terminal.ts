import { weighingTerminal } from "./terminal-weighing.ts";

/** What the terminal says around a result: help, headings and notices. */
const choices = "triangle, duo-trio, paired-difference, three-alternative, tetrad";
/** For `count`: values of a scale are more than a count. */
const counted = `${choices},
                     same-different, a-not-a or paired-preference`;
const sizeable = `${choices},
                     same-different, a-not-a, paired-preference, line-scale or chew-and-weigh`;
const methods = `${choices},
                     same-different, a-not-a, paired-preference, line-scale, ranking or chew-and-weigh`;
const riskLines = `  --goal GOAL        difference, or similarity: that fewer than a limit can tell (difference). Similarity is for
                     tests in which one answer is right
  --limit SHARE      share who can tell that still counts as alike, like 0.3; similarity needs this limit
  --dprime-limit D   or this one: the limit as a distance d-prime`;

export const terminal = {
  help: `cloche: blinded sensory tests for a test kitchen, from a terminal

  cloche start                    run the server with the app
  cloche demo                     run it with an invented kitchen to look around in
  cloche trays PLAN               draw trays, codes and key from a plan file
  cloche rehearse PLAN            play a plan with invented people, many times over
  cloche result FILE              the result of answers or weighings in a CSV file, or of an exported study
  cloche count                    the result of one outcome, from its counts
  cloche size                     how many people a test needs, or what so many people can find

  cloche COMMAND --help           options of a command (or -h)
  cloche --version

Results go to standard output, notices and errors to standard error. Exit code 2: the command or a file has to be
corrected; 1: something else went wrong.`,

  commandHelp: {
    count: `cloche count: the result of one outcome, from its counts

  --method METHOD    ${counted}

Where one answer is right (triangle, duo-trio, three-alternative, tetrad; paired-difference with one side):
  --correct K        right answers
  --of N             answers given
  --people P         different people who gave them (as many as answers)
  --repeats R        or: answers of each person (1)

Where either product may be chosen (paired-preference; paired-difference with two sides):
  --first K          answers for the first product
  --second M         answers for the second
  --none Z           people with no preference, where that was an answer (0); paired-preference only
  --none-rule RULE   what becomes of them: drop before the test, split evenly, or report as a third share (drop)

Where two kinds of trays are told (same-different; a-not-a):
  --unlike N         trays with two different products; samples that were not A
  --told-unlike K    of those, called different; called not A
  --like L           trays with one product twice; samples of A
  --told-like M      of those, called different; called not A

${riskLines}
  --beta SHARE       risk of calling more than the limit alike, at most 0.5 (0.05); similarity only
  --predicted NAMES  of a ranking: the order that was expected beforehand, from least to most, with commas between; its
                     test then decides
  --sides one|two    of paired-difference: was one product named beforehand as the stronger? (one)
  --alpha SHARE      risk of being fooled by chance, above 0 and at most 0.5 (0.05)
  --confidence SHARE of the two-sided intervals beside the test (0.95); those of a preference go with alpha
  --json             one JSON document with full precision
  -h, --help         this text

  cloche count --method triangle --correct 14 --of 24
  cloche count --method duo-trio --correct 22 --of 36 --repeats 3
  cloche count --method tetrad --correct 20 --of 60 --goal similarity --dprime-limit 1
  cloche count --method paired-difference --sides two --first 17 --second 7
  cloche count --method same-different --told-unlike 14 --unlike 20 --told-like 6 --like 20
  cloche count --method paired-preference --first 19 --second 31 --none 10`,

    size: `cloche size: how many people a test needs, or what so many people can find

  --method METHOD    ${sizeable}
  --pd SHARE         what is to be found: share who can tell, like 0.3. Where either product may be chosen: by how much
                     the one side is to lead, 0.3 for 65 to 35
  --dprime D         or: the distance d-prime; same-different and a-not-a have no other
  --people N         instead of how many: what N people can find. With --pd, --dprime, --difference or a limit: how
                     often they do
  --repeats R        trays of each person (1); to show a difference, where one answer is right or samples are rated
${riskLines}
  --sides one|two    of paired-difference (one)
  --alpha SHARE      risk of seeing what is not there, above 0 and at most 0.5 (0.05). For similarity: of missing
                     likeness when nobody can tell (0.2)
  --beta SHARE       risk of missing what is there (0.2). For similarity: of calling more than the limit alike (0.05)
  --json             one JSON document with full precision: people, the first number that does it; peopleStable, from
                     which on it stays so; criticalNumber, power, rule
  -h, --help         this text

Of ratings (line-scale), in points of a line of 100:
  --steps N          the scale has N steps, from 2 to 11: differences and deviations are then told in steps
  --difference P     smallest difference between two products that matters
  --deviation P      how one person's marks scatter, product and person taken out: residual deviation of an earlier study
  --products N       how many are compared (2); --per-tray N if fewer lie on a tray
  --repeats N        trays a person (1); --people-deviation P says which part of the scatter is people who see the
                     products differently: it is not averaged out (0)

Of chewed portions (chew-and-weigh), in percentage points of the portion:
  --difference P     smallest difference of two gains that matters
  --deviation P      how one person's difference scatters from person to person, each side the mean of its portions
  --products N       how many are compared (2), without an inert control: each with the first

Exact: counts are whole, so a somewhat larger panel can do worse; both numbers of people are given.

  cloche size --method triangle --pd 0.3
  cloche size --method tetrad --dprime 1 --beta 0.1
  cloche size --method triangle --people 10
  cloche size --method triangle --goal similarity --limit 0.3
  cloche size --method line-scale --difference 8 --deviation 12 --products 3
  cloche size --method chew-and-weigh --difference 2 --deviation 2.5`,

    result: `cloche result FILE: the result of answers, or of weighings

FILE is a CSV file, or a study that the app exported (JSON). A CSV file has a header line; its columns may stand in
any order, and others are left unread. Each file may have the column repeat (1, 2, …), if people answered more than once.

  triangle, duo-trio, three-alternative, tetrad, paired-difference with one side
                     panelist, correct (1 right, 0 wrong)
  paired-preference, paired-difference with two sides
                     panelist, choice (the name of a product; of a preference also none). The first product named is
                     the first of the result
  same-different     panelist, served (same or different), answer (same or different)
  a-not-a            panelist, served (A or not A), answer (A or not A)
  line-scale         panelist, product, value (left empty: no answer); attribute and moment where there was more than
                     one. Each attribute at each moment is one of its own; the first one named is the one the question
                     is about. scale where values are steps from 1: steps 9, liking 9, just-right 5 (with the number of
                     steps); label for the words of the step
  ranking            panelist, product, rank (1 for the least; left empty: none). Products that share a place have one
                     and the same rank; whoever leaves out a product is left out

  --method METHOD    ${methods}; an exported study names
                     its own
${riskLines}
  --beta SHARE       risk of calling more than the limit alike, at most 0.5 (0.05); similarity only
  --none RULE        answers of no preference: drop before the test, split evenly, or report as a third share (drop)
  --sides one|two    of paired-difference: was one product named beforehand as the stronger? (one)
  --alpha SHARE      risk of being fooled by chance, above 0 and at most 0.5 (0.05)
  --confidence SHARE of the two-sided intervals beside the test (0.95); those of a preference, scale or ranking
                     go with alpha
  --json             one JSON document with full precision
  -h, --help         this text

What a study has locked (method, goal, risks, rule) cannot be asked for otherwise.
${weighingTerminal.help}
  cloche result answers.csv --method triangle
  cloche result pairs.csv --method same-different
  cloche result marks.csv --method line-scale --json
  cloche result ledger.csv --matters 4`,

    trays: `cloche trays PLAN: draw trays, codes and key from a plan file

PLAN is a JSON file: one that the app wrote ("Plan as a file"), or a shorter one written by hand. By hand, needed are
people and two products; what is left out is as in a new plan, without spare trays and with everybody in one wave:

  { "method": "triangle", "people": 24, "spares": 3,
    "products": [{ "name": "current" }, { "name": "new" }],
    "waves": [{ "starts": "11:15", "people": 24, "batches": { "current": ["1", "2"], "new": ["1", "2"] } }] }

Where a method asks for more: "repeats": 3 (trays of each person); "reference": { "kind": "constant", "product":
"current" } for duo-trio, or for a-not-a the product that is A; "properties": [{ "comparative": "juicier", "expected":
"new" }] for paired-difference and three-alternative; "ranking": { "least": "least juicy", "most": "most juicy" } for
ranking, with "predicted": ["current", "new", …] from least to most where an order is expected.

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
  trayColumns: {
    tray: "tray",
    wave: "wave",
    seat: "seat",
    codes: "codes",
    order: "order",
    reference: "reference",
    samples: "samples",
    spare: "spare",
  },
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
    sides: (method: string, sides: string) => `${sides}, as ${method} has it`,
    eitherSides: "one or two",
    similarityOnly: "left out: it belongs to --goal similarity",
    confidenceOfAlpha: "left out: the intervals of this method go with --alpha",
    limit: "a share between 0 and 1, like 0.3",
    beta: "a number above 0 and at most 0.5, like 0.05",
    noneRule: "drop, split or report",
    sided: (method: string, sides: string) => `${method} with ${sides} ${sides === "one" ? "side" : "sides"}`,
    notOfMethod: (method: string) => `left out for ${method}`,
    countable: "a choice test; ratings and ranks go through cloche result",
    sizeable:
      "a choice test, line-scale or chew-and-weigh; the size of a ranking is a matter of how far apart its products are",
    gainsInstead:
      "left out for chew-and-weigh: --difference and --deviation say it in percentage points, two-sided, and no likeness is claimed",
    meansOfPeople: "left out for chew-and-weigh: --deviation is that of a person's means, over all their portions",
    percentagePoints: "a number of percentage points from 0.01 to 100, like 2.5",
    pointsInstead: "left out for line-scale: --difference says in points or steps what is to be found",
    points: "a number of points from 0.01 to 100, like 8",
    amount: (steps: number | null, most: number) =>
      `a number of ${steps === null ? "points" : "steps"} from 0.01 to ${most}, like ${steps === null ? 8 : 0.5}`,
    upTo: (most: number) => `a number from 0 to ${most}`,
    partOfDeviation: (deviation: number, steps: number | null) =>
      `a part of the deviation, from 0 to ${deviation} ${steps === null ? "points" : "steps"}`,
    oneLimit: "left out where --dprime-limit is given: one limit is enough",
    oneEffect: "left out where --dprime is given: one of the two is enough",
    limitInstead: "left out for similarity: --limit or --dprime-limit says what counts as alike",
    onlyDistance: (method: string) => `left out for ${method}: --dprime says what is to be found`,
    onlyShare: "left out for paired-preference: --pd says by how much one side is to lead",
    distance: "a distance above 0 and at most 10 that the method can tell from guessing and from certainty",
    pd: "a share above 0 and at most 1, like 0.3",
    risk: "a number between 0 and 1, like 0.05",
    personIsUnit: "1: with several trays people are compared, and the numbers are those of one tray each",
    peopleFromFile: "left out here: whose answers are whose says a file, and cloche result reads it",
    divides: (answers: number) => `a number that divides the ${answers} answers`,
    peopleTimes: (people: number) => `${people}, as --repeats has it`,
    openShare: "a number between 0 and 1, like 0.05",
    hex: "2 to 128 hex digits",
    value: "followed by a value",
    noValue: "given without a value",
    methodOfStudy: (method: string) => `${method}, the method of the study`,
    locked: (value: string) => `left out: the study's plan locked ${value}`,
    leftOut: "left out for an exported study",
  },
};
