import { afterAll, describe, expect, test } from "vitest";
import { chewResult } from "../../src/model/result-chew.ts";
import { ledgerResult } from "../../src/model/result-ledger.ts";
import { read } from "../../src/model/schema.ts";
import { scenarioGains } from "../analysis/chew-example.ts";
import { scenarioRows } from "../analysis/ledger-example.ts";
import { massByR } from "../analysis/mass-reference.ts";
import { folder, inProcess } from "./terminal.ts";

const files = folder();
afterAll(files.remove);

const steps = ["raw", "cooked", "rested", "held"];
/** The invented scenario's ledger as a file. */
const scenario = [
  "batch,product,step,grams",
  ...scenarioRows.flatMap((batches, product) =>
    batches.flatMap((row, batch) =>
      row.map((grams, step) => `${batch + 1},${product === 0 ? "current" : "new"},${steps[step]},${grams}`),
    ),
  ),
].join("\n");

describe("cloche result of a weighing ledger", () => {
  test("the scenario: 24.7 against 18.3 %, 6.5 points less (5.2 to 7.7, R's t.test), and why steps are not added", async () => {
    const { code, out, err } = await inProcess("result", files.put("ledger.csv", scenario), "--matters", "4");
    expect([code, err]).toEqual([0, ""]);
    const said = out.replace(/\u00a0/g, " ");
    expect(said).toMatch(
      /From raw to held, “new” lost 6\.5 percentage points less of its raw mass than “current” \(5\.2 to 7\.7, 95 % interval\)/,
    );
    expect(said).toMatch(/“current” lost 24\.7 % of its raw mass, “new” 18\.3 %/);
    expect(said).toMatch(/cooked +21\.3 \(20\.6 to 22\.0\)/);
    expect(said).toMatch(/make 24\.6 % of the raw mass, not 25\.5 %/);
    expect(said).toMatch(/4 percentage points was to matter: the whole interval lies beyond/);
    expect(said).toMatch(/current +1 +raw +1497\.0 /);
    expect(said).toMatch(/is not recorded: if somebody chose/);
    // a share of a share is a number of times, never percentage points, and names its base
    expect(said).toMatch(/Of the same raw mass “new” leaves 1\.086 times .*8\.6 % more/);
  });
  test("as JSON: every digit, by the schema", async () => {
    const file = files.put("json.csv", scenario);
    const { out } = await inProcess("result", file, "--json", "--drawn", "yes", "--confidence", "0.9");
    const found = read(ledgerResult, JSON.parse(out));
    expect([found.drawn, found.confidence]).toEqual(["drawn", 0.9]);
    const total = found.differences.find(({ step, base }) => step === "held" && base === "raw");
    expect(total?.percentagePoints.estimate).toBeCloseTo(massByR.ledger.held.ofRaw.difference[0] ?? 0, 12);
    expect(total?.test?.pValue).toBeCloseTo(massByR.ledger.held.ofRaw.difference[6] ?? 0, 12);
  });
  test("an interval that holds 0 is not called the same", async () => {
    const rows = ["1,a,raw,100.0", "1,a,done,80.0", "2,a,raw,100.0", "2,a,done,78.0", "1,b,raw,100.0", "1,b,done,79.0"];
    const file = files.put(
      "same.csv",
      ["batch,product,step,grams", ...rows, "2,b,raw,100.0", "2,b,done,80.0"].join("\n"),
    );
    const { out } = await inProcess("result", file);
    expect(out).toMatch(/it was not shown that “b” loses more or less.*That does not say that they lose the same/);
  });
  test("one batch of each: the difference stands without an interval, and the report says why", async () => {
    const rows = scenario.split("\n").filter((row) => !/^[234],/.test(row));
    const { out } = await inProcess("result", files.put("one.csv", rows.join("\n")));
    expect(out).toMatch(/There is no interval/);
    expect(out).toMatch(/one batch of “current”: without a second one there is no interval/);
    expect(out).not.toMatch(/Welch/);
  });
  test.each([
    [
      "a gain nobody gave a reason for",
      "1,new,cooked,1284.1",
      "1,new,cooked,1584.1",
      /line 19: The mass grew from 1503\.3 g/,
    ],
    [
      "kilograms among grams",
      "1,new,raw,1503.3",
      "1,new,raw,1.5033",
      /line 18: 1\.5033 g beside .* kilograms typed for grams/,
    ],
    [
      "a mass below 0",
      "1,new,held,1227.8",
      "1,new,held,-1227.8",
      /line 21, column “grams”: “-1227\.8” must be a mass in grams/,
    ],
  ])("%s is refused with its line", async (_, from, to, sentence) => {
    const { code, out, err } = await inProcess("result", files.put("bad.csv", scenario.replace(from, to)));
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(sentence);
  });
  test.each([
    [
      "without a header",
      "1,a,raw,1497.0\n1,a,held,1129.1",
      /line 1: the header line is missing.*found: 1, a, raw, 1497\.0/,
    ],
    ["with a first line of equal values", "1,1,raw,raw\n2,1,raw,10", /line 1: the header line is missing/],
    [
      "with two columns misspelled",
      "batch,product,steps,gram\n1,a,raw,10",
      /has the columns batch, product, steps, gram\. .*batch,product,step,grams/,
    ],
    ["with one misspelled", "batch,product,step,gram\n1,a,raw,10", /the column “grams” is missing/],
    ["of chewed portions", "panelist,product,grams_in,grams_out\n1,a,5,6", /here --method chew-and-weigh/],
  ])("a file %s and no method: what stands in line 1, and what a ledger begins with", async (_, text, sentence) => {
    const { code, out, err } = await inProcess("result", files.put("untold.csv", text));
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(sentence);
  });
  test("options of answers say nothing here, and those of weighings nothing to answers", async () => {
    const ledger = files.put("options.csv", scenario);
    expect((await inProcess("result", ledger, "--goal", "similarity")).err).toMatch(/--goal.*it has batches, no panel/);
    expect((await inProcess("result", ledger, "--drawn", "perhaps")).err).toMatch(/--drawn.*yes or no/);
    expect((await inProcess("result", ledger, "--balance", "0")).err).toMatch(/--balance.*smallest step/);
    const answers = files.put("answers.csv", "panelist,correct\n1,1");
    expect((await inProcess("result", answers, "--method", "triangle", "--matters", "4")).err).toMatch(/--matters/);
  });
});

/** The invented scenario's chewed portions as a file. */
const chewed = [
  "panelist,product,repeat,gain_percent",
  ...scenarioGains.flatMap((gains, person) =>
    gains.map((gain, at) => `p${person + 1},${at < 3 ? "current" : "new"},${(at % 3) + 1},${gain}`),
  ),
].join("\n");

describe("cloche result --method chew-and-weigh", () => {
  const chew = ["--method", "chew-and-weigh"] as const;
  test("the scenario: 25.4 and 22.5 %, 2.9 points less (1.4 to 4.5, R's t.test), n = 8", async () => {
    const { code, out, err } = await inProcess("result", files.put("chew.csv", chewed), ...chew);
    expect([code, err]).toEqual([0, ""]);
    const said = out.replace(/\u00a0/g, " ");
    expect(said).toMatch(
      /In this panel portions of “new” gained 2\.9 percentage points less than those of “current” \(1\.4 to 4\.5, 95 % interval\)/,
    );
    expect(said).toMatch(/portions of “current” gained 25\.4 %, those of “new” 22\.5 %/);
    expect(said).toMatch(/over the means of 8 people: 7 degrees of freedom, p = 0\.0026/);
    expect(said).toMatch(/neither a larger nor a smaller gain shows that a product is juicier/);
  });
  test("an empty rinse among filled ones is refused: its water would count as a gain", async () => {
    const text = ["panelist,product,grams_in,grams_out,rinse", "1,a,5.00,16.00,10.0", "1,b,5.00,15.90,"].join("\n");
    const { code, err } = await inProcess("result", files.put("rinse.csv", text), ...chew);
    expect(code).toBe(2);
    expect(err).toMatch(/line 3, column “rinse”: left empty, though line 2 has one\. Write 0 where no water was used/);
  });
  test("as JSON, from readings: cup and rinse water taken off", async () => {
    const rows = ["1,a,5.00,28.85,12.00,10.0,15", "1,b,4.02,3.61,,0,15"];
    const text = ["panelist,product,grams_in,grams_out,cup,rinse,seconds", ...rows].join("\n");
    const { out } = await inProcess("result", files.put("readings.csv", text), ...chew, "--json");
    const found = read(chewResult, JSON.parse(out));
    expect(found.panelists.map(({ gainGrams }) => gainGrams)).toEqual([1.85, -0.41]);
    expect(found.means[0]?.gainPercent.estimate).toBe(37);
  });
  test.each([
    ["a cup that was not taken off", "grams_in,grams_out", "5.00,78.40", /line 2: 15\.7 times the portion came back/],
    ["a portion without mass", "grams_in,grams_out", "0,6.00", /line 2: The portion has no mass/],
    ["no number", "gain_percent", "much", /line 2, column “gain_percent”/],
    ["a column that is missing", "grams_in", "5.00", /column “grams_out” is missing/],
  ])("%s is refused with its line", async (_, columns, cells, sentence) => {
    const file = files.put("bad.csv", `panelist,product,${columns}\n1,a,${cells}`);
    const { code, out, err } = await inProcess("result", file, ...chew);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(sentence);
  });
  test("one portion twice, a control that is not in the file, an option of answers", async () => {
    const file = files.put("twice.csv", `${chewed}\np1,current,1,25`);
    expect((await inProcess("result", file, ...chew)).err).toMatch(/line 50: .*stands on line 2 already/);
    const chews = files.put("control.csv", chewed);
    expect((await inProcess("result", chews, ...chew, "--control", "wax")).err).toMatch(/current and new/);
    expect((await inProcess("result", chews, ...chew, "--sides", "two")).err).toMatch(/--sides/);
  });
});
