import { useDesk } from "./desk.ts";
import { waitingMinutes } from "./standing.ts";

/** One quiet line at the bottom: what is on this tablet only, and for how long. */
export function StatusLine() {
  const { words, clock, standing, worksOffline, mustEnrollAgain } = useDesk();
  const { status } = words;
  const parts = [worksOffline ? status.offline : status.online];
  if (standing === null) parts.push(status.unreadable);
  if (standing) {
    const { unsentAnswers, unsentRecords, oldestUnsentAt, aside } = standing;
    const minutes = waitingMinutes(oldestUnsentAt, clock.instant());
    const since = minutes === null ? "" : ` ${status.since(minutes)}`;
    if (unsentRecords === 0) parts.push(status.sent);
    else
      parts.push(`${unsentAnswers > 0 ? status.unsent(unsentAnswers) : status.unsentRecords(unsentRecords)}${since}`);
    if (aside > 0) parts.push(status.aside(aside));
  }
  if (mustEnrollAgain) parts.push(status.enrollAgain);
  return <p class="status">{parts.join(" · ")}</p>;
}
