import { expect, test } from "vitest";
import { canonicalText, sha256 } from "../../src/model/canonical.ts";

test("SHA-256 of 'abc' and of the 448-bit message, FIPS 180-2 appendix B values (from memory)", () => {
  expect(sha256("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  expect(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")).toBe(
    "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
  );
});

test("canonical text sorts keys, drops undefined, and is the same for the same value", () => {
  expect(canonicalText({ b: 1, a: [true, null, "x"], c: undefined })).toBe('{"a":[true,null,"x"],"b":1}');
});

test("numbers are written as RFC 8785 section 3.2.2.3 asks (values from memory of its examples)", () => {
  expect(canonicalText([333333333.3333333, 1e30, 4.5, 2e-3, 1e-27])).toBe("[333333333.3333333,1e+30,4.5,0.002,1e-27]");
});

test("a lone surrogate is replaced instead of making the hash impossible", () => {
  expect(canonicalText({ name: "a\ud800b" })).toBe('{"name":"a\ufffdb"}');
  expect(canonicalText("ok \u{1f374}")).toBe('"ok \u{1f374}"');
});
