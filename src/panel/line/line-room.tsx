import { LineBallot, measured } from "./line-ballot.ts";
import { LineScreen } from "./line-screen.tsx";

/** What only line scales need, in one piece that is loaded by itself: the ballot, its screens and its words. */
export { LineBallot, LineScreen, measured };
