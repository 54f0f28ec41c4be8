import { organizer, plural } from "./organizer.ts";
import { methodNames } from "./organizer-method.ts";

/** Words of the list of studies: where each stands, how it is found again, and copying one. */
const { nb } = organizer;

export const studiesWords = {
  heading: "Studies",
  emptyHeading: "No study yet",
  empty:
    "A study is one question to a panel, from the plan to the opened key. There is none yet because nobody has begun one in this kitchen.",
  begin: "Begin a study",
  beginHint: "It begins with what this kitchen usually does.",
  offline: "The server cannot be reached. This is what this device holds.",
  columns: { title: "study", state: "state", begun: "begun", last: "last change", change: "" },
  methods: methodNames,
  invented: "a demo with an invented kitchen",
  stages: {
    draft: "draft",
    locked: (planned: number) => `locked, 0${nb}of${nb}${planned} trays answered`,
    collecting: (answered: number, planned: number) => `collecting, ${answered}${nb}of${nb}${planned} trays answered`,
    closed: (answered: number, planned: number) => `closed with ${answered}${nb}of${nb}${planned}, key still sealed`,
    revealed: (answered: number, planned: number) => `key opened, ${answered}${nb}of${nb}${planned} answered`,
  },
  find: {
    label: "Find studies",
    words: "Words in title, question or products",
    state: "State",
    all: "all states",
    states: {
      draft: "draft",
      locked: "locked",
      collecting: "collecting",
      closed: "closed",
      revealed: "key opened",
    },
    count: (name: string, count: number) => `${name} (${count})`,
    shown: (shown: number, all: number) =>
      shown === all ? plural(all, "study", "studies") : `${shown}${nb}of ${plural(all, "study", "studies")}`,
    none: "No study fits. Use fewer words, or look at all states.",
    clear: "Show all studies",
  },
  copy: "copy",
  copyOf: (title: string) => `: begin a new study with the plan of ${title}`,
  withoutDemo: (title: string) => title.replace(/^Demo: /, ""),
  copiedFrom: "Began with the plan of",
};
