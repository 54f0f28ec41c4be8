import { rulesOf } from "../screens/rule-lines.ts";
import { ChoiceScreen } from "./choice-screen.tsx";

/** What only choices need, in one piece that is loaded by itself: the ballots of all shapes, and their words. */
export { ChoiceScreen, rulesOf };
