/** What staff read on a tablet at rest: the check of the tablet, and the cover under which its screen is wiped. */
export const panelTools = {
  check: {
    title: "Check this tablet",
    lead: "For the staff, before the first tray. Nothing here changes an answer.",
    states: { ok: "ok", bad: "not ok", unknown: "cannot tell", looking: "one moment" },
    again: "Check again",
    back: "Back to the trays",

    storage: {
      name: "Answers are stored",
      ok: "A test record was written to the disk and read back.",
      bad: (reason: string) =>
        `A test record could not be written and read back (${reason}). Leave private mode, free some space, or use another tablet.`,
    },
    lasting: {
      name: "They stay stored",
      ok: "The browser has promised to delete nothing by itself.",
      bad: "The browser may delete what is stored when space runs low. Put Cloche on the home screen, open it from there, and ask again.",
      unknown: "This browser does not say. Send the answers soon after each sitting.",
      ask: "Ask the browser to keep it",
    },
    offline: {
      name: "It works without network",
      ok: "The whole app is stored on this tablet.",
      bad: "The app is not stored on this tablet yet. Reload the page with the network on, wait a moment, and check again.",
      insecure: "Not at this address: it needs the secure one (https).",
    },
    installed: {
      name: "It is on the home screen",
      ok: "Cloche was opened from the home screen.",
      bad: "Add this page to the home screen in the browser's menu, and open it from there. Some browsers clear pages that are not.",
    },
    awake: {
      name: "The screen stays on",
      ok: "The browser keeps it on; it is asked again with every tray.",
      bad: "The browser refused just now, perhaps to save its battery. Charge the tablet, or set a longer screen time in its settings.",
      unknown: "This browser cannot keep it on. Set a longer screen time in the tablet's settings.",
    },

    line: {
      name: "The line has its true length",
      none: "This screen has not been measured yet: without that, no tray with a line can be opened.",
      zoomed: "The page is zoomed differently than when it was measured. Set the zoom back, or measure again.",
      room: (now: number, turned: number) =>
        turned > now
          ? `Lines up to ${now} mm fit as the tablet is held now, and up to ${turned} mm on its side.`
          : `Lines up to ${now} mm fit.`,
      fits: (length: number) => `This line must measure ${length} mm from end to end; compare it with a ruler.`,
      turn: (length: number) => `The line of this tasting (${length} mm) fits when the tablet is on its side. Turn it.`,
      small: (length: number) =>
        `The line of this tasting (${length} mm) does not fit on this screen. Use another tablet for it.`,
      how: "Lay a bank card on the screen, its long side along the bar. Make the bar exactly as long as the card (85.60 mm).",
      bar: "Length of the bar",
      place: (px: number) => `${px} pixels`,
      steps: { "-10": "much shorter", "-1": "shorter", "1": "longer", "10": "much longer" } as Record<string, string>,
      edge: "The bar cannot get longer than the screen. Turn the tablet on its side to measure it.",
      matches: "The bar is as long as the card",
      kept: "Measured and kept.",
    },

    advice: {
      brightness: {
        name: "Brightness",
        text: "Set the same brightness on all tablets, as low as can be read well, and turn automatic brightness and night colors off: a screen lights what is eaten in front of it.",
      },
      pinning: {
        name: "Nothing but Cloche",
        text: "The tablet itself can be held to one app: look for “app pinning” or “screen pinning” in Android's security settings, or for “Guided Access” in the iPad's accessibility settings.",
      },
    },
  },
  wipe: {
    title: "The screen can be wiped now.",
    lead: "Touches do nothing here. No answer can be changed.",
    hold: "Hold for two seconds to go on",
    keys: "With a keyboard: press Enter three times.",
    holding: "Keep holding.",
    more: (presses: number) => (presses === 1 ? "Once more." : "Twice more."),
  },
};
