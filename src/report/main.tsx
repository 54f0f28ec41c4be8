import { render } from "preact";
import { appVersion } from "../ui/app-version.ts";
import { ErrorBoundary } from "../ui/error-boundary.tsx";
import "../ui/sheet.css";
import "./report.css";
import "./tables.css";
import "./forms.css";
import "./print.css";
import { App } from "./app.tsx";
import { chooseStore } from "./choose-store.ts";
import { makeReady } from "./computing.ts";
import { Elsewhere } from "./elsewhere.tsx";
import { Failure } from "./furniture.tsx";

const { searchParams, hash } = new URL(window.location.href);
const place = {
  study: searchParams.get("study"),
  code: new URLSearchParams(hash.slice(1)).get("code") ?? "",
};
/** A one-time code is of no use a second time, and an address with one must not be kept or passed on. */
const forgetCode = (): void => window.history.replaceState(null, "", window.location.pathname + window.location.search);

const surroundings = {
  openStore: chooseStore,
  fetcher: (input: string, init: RequestInit) => fetch(input, init),
  now: () => new Date().toISOString(),
  app: appVersion,
};

makeReady();
render(
  <ErrorBoundary instead={(thrown) => <Failure thrown={thrown} />}>
    {searchParams.has("elsewhere") ? (
      <Elsewhere app={appVersion} now={surroundings.now} />
    ) : (
      <App {...surroundings} {...place} forgetCode={forgetCode} />
    )}
  </ErrorBoundary>,
  document.getElementById("app") as HTMLElement,
);
