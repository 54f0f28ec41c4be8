// @vitest-environment happy-dom
import { afterEach, expect, test, vi } from "vitest";
import { saveText } from "../../src/ui/save.ts";

afterEach(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
});

test("a file's address outlives the click that asks for it, since a download may begin later", () => {
  vi.useFakeTimers();
  vi.spyOn(URL, "createObjectURL").mockReturnValue("blob:a");
  const revoked = vi.spyOn(URL, "revokeObjectURL").mockReturnValue(undefined);
  const clicked: string[] = [];
  vi.spyOn(HTMLAnchorElement.prototype, "click").mockImplementation(function (this: HTMLAnchorElement) {
    clicked.push(`${this.download} ${this.href}`);
  });
  saveText("study.json", "application/json", "{}");
  expect(clicked).toEqual(["study.json blob:a"]);
  vi.advanceTimersByTime(5_000);
  expect(revoked).not.toHaveBeenCalled();
  vi.runAllTimers();
  expect(revoked).toHaveBeenCalledWith("blob:a");
});
