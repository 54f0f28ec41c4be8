import { useReading } from "../ui/use-store.ts";
import { organizer } from "../words/en/organizer.ts";
import { onDayWords } from "../words/en/organizer-on-day.ts";
import { useLead } from "./app-context.ts";
import { watchOf } from "./facts.ts";
import { againAddress, claimsAddress, devicesAddress, kitchenAddress, type Route, studiesAddress } from "./route.ts";
import { statusText } from "./status.ts";

/** The header: where you are, and whether everything is kept and sent. */
export function Bar({ route }: { route: Route }) {
  const { who } = useLead();
  return (
    <header class="bar">
      <a class="name" href={studiesAddress}>
        {organizer.name}
      </a>
      <nav aria-label={organizer.bar.nav}>
        {who.role === "kitchen" ? (
          <a href={studiesAddress} aria-current={route.page === "studies" ? "page" : "true"}>
            {onDayWords.bar.studies}
          </a>
        ) : (
          <LeadLinks route={route} />
        )}
      </nav>
      <StatusLine />
    </header>
  );
}

function LeadLinks({ route }: { route: Route }) {
  const inClaims = route.page === "claims" || route.page === "claim";
  const inStudies = !inClaims && route.page !== "devices" && route.page !== "kitchen";
  return (
    <>
      <a href={studiesAddress} aria-current={inStudies ? (route.page === "studies" ? "page" : "true") : undefined}>
        {organizer.bar.studies}
      </a>
      <a href={claimsAddress} aria-current={inClaims ? (route.page === "claims" ? "page" : "true") : undefined}>
        {organizer.bar.claims}
      </a>
      <a href={devicesAddress} aria-current={route.page === "devices" ? "page" : undefined}>
        {organizer.bar.tablets}
      </a>
      <a href={kitchenAddress} aria-current={route.page === "kitchen" ? "page" : undefined}>
        {organizer.bar.kitchen}
      </a>
      <a href="/report/">{organizer.bar.results}</a>
    </>
  );
}

function StatusLine() {
  const { store, sent, keep } = useLead();
  const watch = watchOf(store);
  const counts = useReading(() => store.counts(), watch, []);
  const lastKept = useReading(() => store.meta("last-kept"), watch, []);
  if (!counts) return <p class="end" />;
  const text = statusText({ counts, lastKept: typeof lastKept === "string" ? lastKept : null, sent, keep });
  return (
    <p class="end" title={counts.aside > 0 ? organizer.status.asideTitle : undefined}>
      {text}
      {sent.unknown ? (
        <>
          {" "}
          <a href={againAddress}>{organizer.status.again}</a>
        </>
      ) : null}
    </p>
  );
}
