/** What the tests ask jstat for as a second opinion; the app itself may not use these. */
declare module "jstat" {
  const jStat: {
    ibeta(x: number, a: number, b: number): number;
    beta: { inv(p: number, a: number, b: number): number };
    binomial: { pdf(k: number, n: number, p: number): number };
    normal: { cdf(x: number, mean: number, sd: number): number };
  };
  export default jStat;
}
