import type { Plan } from "../../model/plan.ts";
import { organizer, plural } from "./organizer.ts";

/** Words of locking a plan, closing a study and opening its key: what cannot be undone. */
export const lockWords = {
  gate: {
    type: (word: string) => `Type ${word} to go on`,
    missing: (word: string) => `Type the word ${word} first.`,
    note: "Note",
    noteHint: "It stands in the report. No names, please.",
  },
  lock: {
    heading: "Lock the plan",
    back: "Back to the plan",
    openHeading: "Not ready yet",
    open: (count: number) =>
      `${plural(count, "point is", "points are")} still open. The plan can be locked when all are answered.`,
    fixes: "Locking fixes for good:",
    fixed: [
      "the question, the method with all its rules, and the risk of being wrong by chance;",
      "the number of people, and the count that will decide where there is one;",
      "products, batches, waves and every rule of serving;",
      "which cup of which tray holds what. It is drawn now, by chance.",
    ],
    allHeading: "As it will be locked",
    asked: "What is asked",
    anyCode: "482",
    property: (question: string, scale: string, definition: string) =>
      `${question} ${scale} ${definition.trim()}`.trim(),
    ends: (low: string, high: string) => `From \u201c${low}\u201d to \u201c${high}\u201d.`,
    none: "No preference",
    rule: "Rule",
    likeness: "Likeness is shown by few right answers. Many right answers show nothing by this rule.",
    orders: "Serving orders",
    panel: "Panel",
    panelOf: (type: string, standsFor: string) =>
      standsFor === "" ? `${type}. They stand for themselves only.` : `${type}. They stand for: ${standsFor}.`,
    tasting: "How it is tasted",
    products: "Products",
    productOf: (at: number, name: string, preparation: string) =>
      `${String.fromCharCode(65 + at)}: ${name.trim()}. ${preparation.trim()}`,
    batches: "Batches",
    batchesOf: (wave: number, batches: readonly string[]) => `Wave ${wave}: ${batches.join("; ")}.`,
    screen: "Screen of the tablets",
    tastingOf: ({ method, serving: { cleanser, pauseSeconds, swallow, retaste, warmUp, warmUpWhat } }: Plan) =>
      [
        warmUp ? `Warm-up first: ${warmUpWhat.trim()}.` : "No warm-up.",
        `${cleanser.trim() === "" ? "No cleanser" : cleanser.trim()}; ${pauseSeconds}${organizer.nb}s between samples.`,
        ...(method === "chew-and-weigh"
          ? ["Each portion is chewed once and spat into its own cup."]
          : [
              { swallow: "Swallowed.", spit: "Spat out.", either: "Swallowed or spat out, as each likes." }[swallow],
              !retaste
                ? "Each sample is tasted once."
                : method === "line-scale"
                  ? "More than one bite of a sample is allowed."
                  : "Going back to a sample is allowed.",
            ]),
      ].join(" "),
    paceOf: ({ pace: { windowFrom, windowTo, mostSamples } }: Plan) =>
      [
        windowTo === null && windowFrom === null
          ? ""
          : windowTo === null
            ? `As it should be from ${windowFrom ?? 0} minutes after the heat.`
            : `As it should be from ${windowFrom ?? 0} to ${windowTo} minutes after the heat.`,
        `At most ${plural(mostSamples, "sample", "samples")} a sitting.`,
      ]
        .filter(Boolean)
        .join(" "),
    never: "None of this can ever be changed, by anybody.",
    lockedHeading: "The plan, as locked",
    backToDay: "Back to the study",
    still: {
      heading: "What can still happen",
      lead: "After the lock things are only added, each with its time and who wrote it. The report names them.",
      events: (looks: boolean) => [
        "People come late or not at all: a wave goes on without them, and the report counts who answered.",
        "A spare tray is served, instead of another or to one more person.",
        "A ballot is void, with a reason and a note. It stays in the log and does not count.",
        "A panelist stops, would rather not take part, or cannot answer. Nobody asks why.",
        "A tray answered on two tablets is settled; an answer that came late is admitted, or is not.",
        ...(looks ? ["At the looks that the plan names, the rule says to go on or to stop."] : []),
        "A paper is printed again.",
        "The study is closed, with a note, also before everybody has answered.",
        "The key is opened. After that nothing is ruled on any more.",
      ],
      changed: (copy: string) =>
        `A changed plan is a new study that names this one: \u201c${copy}\u201d on the study\u2019s page begins it, with everything as it is here and open to change.`,
    },
    limits: "Temperatures and times",
    uncooked: "Nothing has to be cooked through.",
    responsible: (name: string) => `Raw or undercooked by design; ${name.trim()} answers for it.`,
    agreed: "What people agree to",
    key: "The key, which says what each code is, is sealed under a passphrase. The passphrase is shown once, on the next page. Have a pen or a printer at hand.",
    lost: "Whoever loses both the passphrase and the sealed page cannot open this study. Nobody else can either.",
    crash: (copy: string) =>
      `If this window closes before the passphrase is written down, the key of this study is lost for good. The plan is not: \u201c${copy}\u201d on the study\u2019s page makes another study of it.`,
    word: "LOCK",
    action: "Lock for good",
    working: "Sealing\u2026",
    facts: (people: number, spares: number) =>
      `${plural(people, "tray", "trays")} and ${plural(spares, "spare", "spares")} will be drawn.`,
  },
  once: {
    heading: "Write down the passphrase",
    lead: "It opens the key after the study is closed. It is shown now and never again.",
    words: "Passphrase",
    sealed:
      "Print the sealed page, put it into an envelope and close it. It opens the study if the passphrase is lost.",
    print: "Print the sealed page",
    lost: "With both the passphrase and the sealed page lost, nobody can open this study.",
    checkHeading: "Do you have it?",
    first: "First word",
    last: "Last word",
    submit: "I have it",
    wrong: "These are not the first and the last word. Look again; capital letters do not matter.",
  },
  open: {
    heading: "Open the key",
    notClosed: "The key stays sealed until the study is closed.",
    toClose: "Close the study",
    lead: "Opening shows which code is which, and the answers with it. After that nothing can be voided, settled or admitted.",
    fetchFirst: "What the server holds is fetched first.",
    notFetched: "The server cannot be reached. Answers that it holds and this device does not would never count.",
    contested: (trays: string) =>
      `Answered on two tablets and not settled: ${trays}. Opened like this, they do not count.`,
    late: (trays: string) => `Came in after the close and not admitted: ${trays}. Opened like this, they do not count.`,
    settle: "Settle them first",
    admit: "Look at them first",
    how: "Open it with",
    byPassphrase: "the passphrase",
    byPage: "the sealed page",
    passphrase: "Passphrase",
    passphraseHint: "Eight words with spaces between. Capital letters do not matter.",
    page: "Text of the sealed page",
    pageHint: "Scan its code with any phone and paste the text here, or type it off the page. Line ends do not matter.",
    missing: "Fill in what opens the key first.",
    word: "OPEN",
    action: "Open the key",
    working: "Opening\u2026",
    done: "The key is open, and it matches its seal.",
    sending: "The opened key is kept here. The full answers, and the way to the result, come when the server has it.",
    report: "Read the result",
  },
  close: {
    heading: "Close the study",
    lead: "After the close no answer counts by itself any more. What still comes in is kept and shown as late.",
    answered: (answered: number, planned: number) => `${answered} of ${planned} planned trays are answered.`,
    below: "Fewer answers than planned make a difference harder to find. The report says so.",
    openTrays: (trays: string) => `Begun and not answered: ${trays}.`,
    unchecked: (trays: string) =>
      `Ballots on paper that are typed in and not known to be checked: ${trays}. They count only if a second person types the same.`,
    differing: (trays: string) =>
      `Typed in by two people, and not the same: ${trays}. Look at the paper again; then one of the two types it anew.`,
    holdingHeading: "These tablets still hold something",
    holding: (name: string, unsent: number, seen: string | null) =>
      `${name}: ${plural(unsent, "record", "records")} not sent${seen ? `, last heard ${seen}` : ""}.`,
    mayHoldHeading: "These tablets may hold an answer",
    mayHold: (name: string, trays: string, seen: string | null) =>
      [
        `${name}:`,
        [trays ? `tray ${trays} was begun there` : "", seen ? `last heard ${seen}` : "never heard"]
          .filter(Boolean)
          .join(", "),
      ].join(" "),
    holdingAdvice: "Bring them to where the network is, or close now: what they hold then counts as late.",
    none: "No tablet is known to hold anything unsent.",
    unknown:
      "The server cannot be reached, so it is not known whether tablets still hold ballots. What they or the server hold beyond this device\u2019s knowledge counts as late.",
    word: "CLOSE",
    action: "Close for good",
    working: "Closing\u2026",
  },
};

/** The moment a tablet was last heard of, for a sentence. */
export const heard = (instant: string | null): string | null => (instant ? organizer.clock(instant) : null);
