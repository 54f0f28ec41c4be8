import { ToolPage } from "./tool-page.tsx";
import "./tools.css";

/** What staff need of a tablet at rest: loaded by itself, right after the start. */
export { ToolPage };
