import { render } from "preact";
import { panelHelp } from "../../words/en/panel-help.ts";
import "./help.css";

const words = panelHelp.halted;

/** The keys that open a tray are listened for by the whole window: while tasting is stopped nothing hears them. */
const deafen = (event: Event): void => {
  event.stopImmediatePropagation();
  event.preventDefault();
};

/**
 * Covers the tablet while tasting is stopped, and gives it back as it was: what is under it stays, and nothing of it
 * can be touched, typed or read aloud. Called with every look at the server.
 */
export function showHalted(halted: boolean): void {
  const shown = document.getElementById("halted");
  if (halted === (shown !== null)) return;
  const app = document.getElementById("app");
  if (app) app.inert = halted;
  if (shown) {
    window.removeEventListener("keydown", deafen, true);
    render(null, shown);
    shown.remove();
    return;
  }
  window.addEventListener("keydown", deafen, true);
  const cover = document.createElement("div");
  cover.id = "halted";
  document.body.append(cover);
  render(<Halted />, cover);
}

function Halted() {
  return (
    <div class="halted" role="alert">
      <h1>{words.title}</h1>
      {words.lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  );
}
