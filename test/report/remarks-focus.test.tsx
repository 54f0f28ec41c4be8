// @vitest-environment happy-dom
import { cleanup, fireEvent, render, screen, waitFor } from "@testing-library/preact";
import { afterEach, expect, test } from "vitest";
import { Remarks } from "../../src/report/remarks-part.tsx";
import { reader } from "../../src/words/en/reader.ts";

afterEach(cleanup);

test("remarks that are shown take the focus to their heading, and hidden ones give it back to the button", async () => {
  render(<Remarks trayOf={new Map([["e", 3]])} fetchRemarks={async () => []} />);
  const { heading, hide, show } = reader.remarks;
  const press = (name: string) => fireEvent.click(screen.getByRole("button", { name }));
  const focused = (text: string) => waitFor(() => expect(document.activeElement?.textContent).toBe(text));
  press(show(1));
  await focused(heading);
  press(hide);
  await focused(show(1));
});
