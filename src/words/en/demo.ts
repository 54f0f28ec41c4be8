/** What is said of the demo: by `cloche demo`, and on the lead's pages. */
const rows = (lines: readonly string[]) => lines.map((line) => `    ${line}`).join("\n");

export const demoTerminal = {
  help: `cloche demo: run the server with an invented kitchen to look around in

Quillmere Kitchen asks whether its meatballs are juicier when they are steamed first. Ten of its studies are tasted,
closed and opened; one is locked and waits for you to taste it; one claim says what they were for. All of it is
invented, and says so. It stands in a folder of its own: a new temporary one, or an empty one that you name. To begin
anew, stop the command and start it again; to get rid of it, remove the folder.

  --folder FOLDER  keep it here; the folder must be empty or missing (a new temporary folder)
  --json           print one JSON document once the server runs, and nothing else
  --help           this text

and these of cloche start, which --help of that command explains: --port, --host, --cert, --key, --local-ca,
--trust-port, --name, --app, --config, --verbose`,

  loaded: (studies: readonly { title: string; revealed: boolean }[]) =>
    `The demo is loaded. All of it is invented:\n${rows(
      studies.map(
        ({ title, revealed }) => `${title.replace(/^Demo: /, "")} ${revealed ? "(with a report)" : "(locked)"}`,
      ),
    )}`,
  passphrase: (words: string) => `The passphrase of every study of it, since it guards nothing:\n${rows([words])}`,
  temporary: "The folder is a temporary one: name one with --folder to keep what you do there.",
};

export const demoWords = {
  offer: {
    heading: "Just looking?",
    text: "Quillmere Kitchen is an invented kitchen with twelve studies: eleven with their reports, and one that is locked and waits for you to taste it. A claim says what they were for. Loading it adds them to this server, each marked as invented.",
    keep: "They stay with the data of this server and cannot be taken out again. For a look beside your own studies, start “npx cloche demo”: it has a folder of its own.",
    load: "Load the demo",
    loading: "Loading the demo…",
    again: "Go on loading",
    half: "Part of the demo may be there already. Going on adds the rest.",
  },
  invented: "Part of the demo: an invented kitchen, and no finding about any food.",
  waiting: (passphrase: string) => `Invented: part of the demo. Its passphrase is no secret: ${passphrase}`,
  taste:
    "To taste it, print its kitchen sheet and add a tablet. What you answer there is all that will not be invented.",
};
