// @vitest-environment happy-dom
import { cleanup, render, screen } from "@testing-library/preact";
import { afterEach, expect, test } from "vitest";
import { ErrorBoundary } from "../../src/ui/error-boundary.tsx";

afterEach(cleanup);

function Broken(): never {
  throw new Error("the picture broke");
}

test("what throws while rendering is replaced by a sentence; what does not stays as it is", () => {
  render(
    <>
      <ErrorBoundary instead={(thrown) => <p role="alert">{String(thrown)}</p>}>
        <Broken />
      </ErrorBoundary>
      <ErrorBoundary instead={() => <p>not this</p>}>
        <p>whole</p>
      </ErrorBoundary>
    </>,
  );
  expect(screen.getByRole("alert").textContent).toBe("Error: the picture broke");
  expect(screen.getByText("whole")).toBeTruthy();
  expect(screen.queryByText("not this")).toBeNull();
});
