import { enrollDevice } from "../device/enrollment.ts";
import { Enroll } from "./screens/enroll.tsx";

/** What only enrolling needs, which needs the network anyway: loaded by itself. */
export { Enroll, enrollDevice };
