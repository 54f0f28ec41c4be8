import { rehearsalAsked } from "../model/rehearsal.ts";
import { read } from "../model/schema.ts";
import { appVersion } from "../ui/app-version.ts";
import { runRehearsal } from "./rehearsal-run.ts";

/*
 * Plays rehearsals off the page's thread. It knows neither the store nor the network: what it plays can go nowhere but
 * into the page that asked.
 */
self.addEventListener("message", ({ data }: MessageEvent<unknown>) => {
  runRehearsal(
    read(rehearsalAsked, data),
    appVersion,
    () => performance.now(),
    (news) => self.postMessage(news),
  );
});
