/**
 * What may be used of the package jstat, and nothing else: its own p-values and quantiles lose digits (its binomial is
 * rounded on purpose), so they are not declared and do not compile. Not named jstat.d.ts, since TypeScript drops a
 * declaration file that stands beside a source file of the same name.
 */
declare module "jstat" {
  const jStat: {
    normal: {
      /** Density; exact to 1e-15 for -4 <= x <= 4. */
      pdf(x: number, mean: number, sd: number): number;
      /** Quantile; exact to 1e-13 for 1e-5 <= p <= 1 - 1e-5. */
      inv(p: number, mean: number, sd: number): number;
    };
    sum(values: readonly number[]): number;
  };
  export default jStat;
}
