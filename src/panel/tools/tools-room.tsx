import { CheckPage } from "./check-page.tsx";
import { Wipe } from "./wipe.tsx";
import "./tools.css";

/** What staff need of a tablet at rest: loaded by itself, right after the start. */
export { CheckPage, Wipe };
