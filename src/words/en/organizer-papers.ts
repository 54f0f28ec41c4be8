import type { Paper } from "../../model/event.ts";
import { organizer, plural } from "./organizer.ts";
import { oneDecimal } from "./organizer-figures.ts";
import { takesPart } from "./paper-tick.ts";

/** Words of the papers, on the screen and in print. Nothing on a card or a label hints at a product. */
const { nb } = organizer;

export const paperNames: Record<Paper, string> = {
  "kitchen-by-product": "Kitchen sheet by product and batch",
  "kitchen-by-tray": "Kitchen sheet by tray",
  "sealed-page": "Sealed page",
  "tray-cards": "Tray cards",
  labels: "Code labels",
  seating: "Seating list",
  "backup-ballots": "Backup ballots",
  "check-list": "Check list",
  "door-sign": "Sign at the door",
  "prep-list": "Shopping and preparation",
  "process-draw": "Who got which process",
  "weighing-sheet": "Weighing sheet",
};

export const paperWords = {
  heading: "Papers",
  back: "All papers",
  lead: "Each paper has a page of its own and a print button.",
  passphraseInDoubt:
    "Stop. The page that showed the passphrase was closed before you typed it back. If you have neither the passphrase nor the printed sealed page, this study can never be opened: begin a new one with this plan now, before any food is served.",
  withKey: "With the key",
  withKeyNote:
    "They say which code is which. They go to whoever fills the cups, and come back to the lead when the trays are filled.",
  withKeyRule:
    "After the lock each can be printed once without more ado. To print one again, or after leaving the papers, the key must be opened for it; the report names every paper that was printed again.",
  forKitchen: "For the kitchen, without the key",
  forKitchenNote:
    "These name the products, though no code: they stay in the kitchen, away from whoever carries the trays or tastes.",
  withoutKey: "Without the key",
  what: {
    "kitchen-by-product": "Which codes are filled from which pot, wave by wave.",
    "kitchen-by-tray": "Which cup stands where on each tray, with boxes for filler and checker.",
    "sealed-page": "The key itself, for an envelope. It opens the study if the passphrase is lost.",
    "tray-cards": "One card for each tray, to be cut apart: the number and a place for each cup.",
    labels: "One label for each cup, on the sheets that you have.",
    seating: "Which seat gets which tray. Names only if you type them.",
    "check-list": "Which codes belong on which tray, for a second person who does not know the key.",
    "door-sign": "What is in everything that is served, cautions, and whom to ask. No title, no product.",
    "prep-list": "Portions, grams, cups, labels and times for each wave, spare trays among them.",
    "process-draw": "Which raw pieces or lots get which process, and the order of cooking, as the lock drew it.",
    "weighing-sheet":
      "One line for each cup, by tray and code, for whoever weighs and does not know the products, should the screen fail.",
    "backup-ballots": "One ballot on paper for each tray, for when the tablets fail: the same words and codes.",
  } satisfies Record<Paper, string>,
  once: "Printed",
  open: {
    heading: "This paper shows the key",
    first: "To print it the key must be opened. The printing goes into the log.",
    again:
      "It was printed before. To print it again the key must be opened. That goes into the log, and into the report as a departure; it is no early look at answers.",
    counts: "Opening it here counts as the printing, and is good for one.",
    action: "Open for printing",
    working: "Opening\u2026",
    missing: "Fill in what opens the key first.",
  },
  leave: "When you leave the papers, this page loads itself anew, so that nothing of the key stays in it.",
  sizeFirst:
    "Choose the size first. A browser does not say whether a print was canceled, so each one counts, and this page closes after it.",
  preview: "How it will look",
  print: "Print",
  printing: "One moment\u2026",
  size: "Paper",
  sizes: [
    { value: "a4", label: "A4", hint: "" },
    { value: "letter", label: "Letter", hint: "" },
  ] as const,
  bar: "must measure 100 mm",
  seal: (commitment: string) => `Seal ${(commitment.slice(0, 12).match(/.{4}/g) ?? []).join(nb)}`,
  notLocked: "Before lock: may still change",
  blackBar: "Key. Back to the lead when the trays are filled",
  blackBarSealed: "Key. Into the envelope, at once",
  wave: (wave: number, starts: string) => `Wave ${wave}${starts.trim() ? `, ${starts.trim()}` : ""}`,
  spare: "spare",

  byProduct: {
    portion: (grams: number | null) => (grams === null ? "" : `, ${grams}${nb}g in all`),
    cups: (count: number) => plural(count, "cup", "cups"),
    batch: (batch: string) => `batch ${batch}`,
    pot: (label: string) => `, pot ${label}`,
    tray: (label: string) => `tray${nb}${label}`,
    filled: "filled",
    none: "No cup is filled from this batch.",
    order: "Codes in order of trays.",
    references: (mark: string) => `Cups marked ${mark}, without a code, for these trays:`,
    coded: "Cups with a code:",
  },
  byTray: {
    tray: "tray",
    place: (place: number) => `place ${place}`,
    reference: (mark: string) => `cup ${mark}, first`,
    referenceNote: (mark: string) =>
      `The cup marked ${mark} has no code and stands first on its tray; the large letter says which product goes into it.`,
    filler: "filled by",
    checker: "checked by",
    letters: (names: readonly string[]) =>
      names.map((name, at) => `${String.fromCharCode(65 + at)} is ${name}`).join("; "),
  },
  sealed: {
    passphrase: "Passphrase",
    space: "Write the passphrase here:",
    into: "Fold, put into an envelope, close and sign across the flap. Open only when the passphrase is lost and the study is closed.",
    key: "Key",
    keyNote: "Seed, salt of the seal, then tray, order and batches. Typed or scanned, it opens the study.",
    qr: "The key as a QR code",
    tooLong: "This key is too long for a QR code; the text below is complete.",
    salt: "Derivation",
    derivation: (rounds: number, salt: string) => `PBKDF2-HMAC-SHA-256, ${rounds} rounds, salt ${salt}; AES-256-GCM`,
  },
  card: {
    tray: "Tray",
    qr: (label: string) => `Tray ${label} as a QR code`,
    contains: "Contains",
    mayContain: "May contain",
    nothing: "No allergen of the list is declared.",
    swallow: {
      swallow: "Swallow each sample.",
      spit: "Spit each sample out.",
      either: "Swallow or spit, the same for each sample.",
    },
    /** Of portions that are weighed again; `rows`: as on a large card. */
    weighed: (rows: boolean) =>
      `Each portion goes into its own opaque cup with this tray\u2019s number and its code: lid on, then hand it in. ${rows ? "Row by row, left to right" : "Left to right"}`,
    spit: "All of it is spat out.",
    order: "Left to right",
    rows: "Row by row, left to right",
  },
  ballot: {
    takesPart,
    tray: (label: string) => `Tray ${label}`,
    part: (at: number, of: number) => `${at} of ${of}`,
    contains: "What is served contains",
    mayContain: "It may contain",
    concerned: "If something here concerns you, do not taste: leave the tray and tell the staff. Nobody asks why.",
    pause: (seconds: number) =>
      seconds === 0 ? "Between samples, rinse again." : `Between samples, rinse again and wait ${seconds} seconds.`,
    clock: "Count the seconds from the first bite by a clock.",
    meaningOfEnds: (least: string, most: string, definition: string) =>
      `\u201c${least}\u201d and \u201c${most}\u201d mean: ${definition}`,
    meaning: (adjective: string, definition: string) => `\u201c${adjective}\u201d means: ${definition}`,
    chews: "Count your chews from the first bite.",
    /** What to do, above the first question of each leaf. */
    how: {
      line: "Cross each line with one stroke, where your answer lies.",
      steps: "Tick one box under each question.",
      both: "Cross each line with one stroke, where your answer lies; under the other questions tick one box.",
      chew: "All questions of a sample go with one chew.",
      next: "The questions stand on the next leaves.",
    },
    tick: "Tick one box.",
    places: (count: number, least: string, most: string) =>
      `Write the number of its place into the box of each sample: 1 for ${least}, ${count} for ${most}.`,
    place: "place",
    question: (at: number) => `${at}.`,
    with: "with",
    onTray: "On the tray, in the order of tasting:",
    /** Of every line on the page; printers scale. */
    measures: (length: number) => `every line must measure ${length}${nb}mm`,
    typed: "typed in by",
    checked: "checked by",
  },
  labels: {
    start: "First label of the first sheet",
    startHint: "1 for a fresh sheet, 4 when the first row is used up.",
    place: (label: string, place: number) => (place === 0 ? `tray ${label}, first` : `tray ${label}, place ${place}`),
    measures: (columns: number, rows: number, width: number, height: number) =>
      `For sheets of ${columns} by ${rows} labels, ${oneDecimal(width)} by ${oneDecimal(height)}${nb}mm.`,
    scale: `Print at 100${nb}%, without fitting to the page.`,
    other: "Another label sheet, or a printer that is off",
    otherNote:
      "Measure a sheet, print one on plain paper and hold both against the light. This browser remembers what you set.",
    millimeter: "mm",
    fields: {
      columns: "Labels side by side",
      rows: "Labels one below the other",
      widthMm: "Width of a label",
      heightMm: "Height of a label",
      columnGapMm: "Gap between columns",
      rowGapMm: "Gap between rows",
      leftMm: "From the left edge to the first label",
      topMm: "From the top edge to the first label",
      rightwardMm: "Move everything to the right",
      downwardMm: "Move everything down",
    },
    usual: "Back to the usual sheet",
    over: {
      right: (reach: number, room: number) =>
        `These labels reach ${oneDecimal(reach)}${nb}mm from the left edge, and the paper is ${oneDecimal(room)}${nb}mm wide. Make them narrower or fewer; until then none are shown.`,
      down: (reach: number, room: number) =>
        `These labels reach ${oneDecimal(reach)}${nb}mm from the top edge, and the paper is ${oneDecimal(room)}${nb}mm high. Make them lower or fewer; until then none are shown.`,
    },
    noBar: `This sheet has no room for the bar of 100${nb}mm. Print a tray card first and measure the bar there.`,
  },
  weighing: {
    how: (within: number, step: string) =>
      `Gloves on. Weigh every cup with its lid, empty; then the portion by itself, without its cup; and the cup closed again within ${within} s of spitting. Write down what the balance shows, with all its decimals${step === "" ? "" : ` (step ${step} g)`}.`,
    rinse: (grams: number) => `Each cup gets ${grams} g of water to rinse with: write down what was weighed out.`,
    tray: "tray",
    code: "code",
    empty: "empty cup, g",
    portion: "portion alone, g",
    after: "closed again, g",
    water: "water, g",
    time: "time",
  },
  seating: {
    seat: "seat",
    tray: "tray",
    wave: "wave",
    order: "Trays of a seat in the order of serving. One seat is one person, in every session.",
    name: "name",
    nameOf: (seat: number) => `Name at seat ${seat}`,
    note: "Names are optional. They stay in this browser only, never in the log and never on the server, and can be erased.",
    erase: "Erase all names",
    erased: "All names of this study are erased.",
    word: "ERASE",
    eraseNote: "This cannot be undone. The answers stay.",
    working: "Erasing\u2026",
  },
};
