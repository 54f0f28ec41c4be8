import { organizer, plural } from "./organizer.ts";

/** Words of the page of tablets and other devices. */
export const tabletWords = {
  heading: "Tablets",
  offline:
    "The server cannot be reached. Devices and one-time codes come from it; what you see is what was known last.",
  emptyHeading: "No tablet yet",
  empty:
    "A tablet becomes one of this kitchen\u2019s with a one-time code. Make one below, then open the address on the tablet and type the code.",
  columns: { name: "device", study: "serves", seen: "last heard", unsent: "not sent", change: "" },
  self: "this browser",
  roles: { panel: "tablet", reader: "reader", lead: "lead" },
  unreadable: (count: number) =>
    `${plural(count, "record", "records")} from here cannot be read and ${count === 1 ? "counts" : "count"} nowhere. The server and this device keep ${count === 1 ? "it" : "them"}; tell whoever runs the server.`,
  noStudy: "no study",
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
      { value: "reader", label: "A reader\u2019s browser", hint: "it sees opened studies" },
      { value: "lead", label: "A second lead\u2019s browser or phone", hint: "it can do all that you can" },
    ] as const,
    study: "Study that the tablet serves",
    later: "choose later",
    name: "Name of the device",
    nameHint: "Booth 1, Kitchen phone. It can be changed on the device.",
    submit: "Make a one-time code",
    working: "One moment\u2026",
  },
  code: {
    heading: "One-time code",
    open: "Open this address on the device, then type the code:",
    local:
      "This browser is on the server\u2019s own computer. On another device, use the address that the server printed when it started, with this at its end:",
    scan: "Or scan this with the phone:",
    qr: "The address with the code, as a QR code",
    until: (at: string) => `It works once, until ${organizer.clock(at)}.`,
    over: "This code is older than ten minutes. Make a new one.",
    done: "Done",
  },
};
