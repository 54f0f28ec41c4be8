import { organizer, plural } from "./organizer.ts";

/** Words of the page of tablets and other devices. */
const { nb } = organizer;

export const tabletWords = {
  heading: "Tablets",
  offline:
    "The server cannot be reached. Devices and one-time codes come from it; what you see is what was known last.",
  emptyHeading: "No tablet yet",
  empty:
    "A tablet becomes one of this kitchen\u2019s with a one-time code. Make one below, then scan it with the tablet, or open the address there and type the code.",
  columns: { name: "device", study: "serves", seen: "last heard", unsent: "not sent", checks: "checks", change: "" },
  quiet: "offline or put away",
  allSent: "all sent",
  checks: {
    persisted: "its browser keeps what it stores",
    notPersisted: "its browser may clear what it stores: install the app on its home screen",
    line: (reach: number) => `line true up to ${reach}${nb}mm`,
    lineUnchecked: "line not checked with a card",
    lineNeeded: (needed: number) => `line not checked with a card: this study needs ${needed}${nb}mm`,
    lineShort: (reach: number, needed: number) =>
      `its line reaches ${reach}${nb}mm, this study needs ${needed}${nb}mm: use another tablet`,
  },
  self: "this browser",
  roles: { panel: "tablet", kitchen: "kitchen", reader: "reader", lead: "lead" },
  unreadable: (count: number) =>
    `${plural(count, "record", "records")} from here cannot be read and ${count === 1 ? "counts" : "count"} nowhere. The server and this device keep ${count === 1 ? "it" : "them"}; tell whoever runs the server.`,
  noStudy: "no study",
  unknownStudy: "a study that is not on this device",
  studyOf: (name: string) => `Study that ${name} serves`,
  withdraw: "withdraw",
  withdrawOf: (name: string) => `: ${name}`,
  withdrawn: "withdrawn",
  withdrawNote:
    "A withdrawn device can read nothing more. Ballots that it still holds can be sent after it is enrolled again.",
  asking: (name: string) => `Withdraw ${name}?`,
  yes: "Yes, withdraw it",
  no: "No",
  make: {
    heading: "Add a device",
    role: "What is it?",
    roles: [
      { value: "panel", label: "A tablet, for panelists", hint: "it gets codes and questions only" },
      {
        value: "kitchen",
        label: "A phone of the kitchen",
        hint: "it sees waves, temperatures and checks; no answers, no key",
      },
      { value: "reader", label: "A reader\u2019s browser", hint: "it sees opened studies" },
      { value: "lead", label: "A second lead\u2019s browser or phone", hint: "it can do all that you can" },
    ] as const,
    study: "Study that the tablet serves",
    later: "choose later",
    name: "Name of the device",
    nameHint: "Booth 1, Kitchen phone. A device may give itself another when it is set up.",
    submit: "Make a one-time code",
    working: "One moment\u2026",
  },
  code: {
    made: (code: string) => `The one-time code is ${code}.`,
    steps: {
      panel: "Scan this with the tablet\u2019s camera:",
      reader: "Scan this with the reader\u2019s phone or tablet:",
      kitchen: "Scan this with the kitchen\u2019s phone:",
      lead: "Scan this with the phone:",
    },
    type: "Or open this address there and type the code:",
    qr: "The address with the code, as a QR code",
    which: "Address of this server in the network",
    looking: "Asking the server where other devices reach it\u2026",
    onlyHere:
      "This server listens on its own computer only: other devices cannot reach it. Start it without --host, or with --name, and make a code then. In a browser on this computer the code works at:",
    unknown:
      "The server did not say where other devices reach it. Use the address that it printed when it started, with this at its end:",
    plainHttp:
      "This address is plain http: there a tablet cannot be opened without the network, and its browser may clear what it stores. Start the server with --local-ca or a certificate for more.",
    trust:
      "If the device warns of the certificate, it does not trust this server yet: what to do stands at the address that the server printed when it started.",
    until: (at: string) => `It works once, until ${organizer.clock(at)}.`,
    used: (name: string) => `${name} is set up. The code has been used.`,
    over: "This code is older than ten minutes. Make a new one.",
    done: "Done",
  },
};
