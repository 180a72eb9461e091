/** The part of the library jstat (MIT) that is used; it ships no types. */
declare module 'jstat' {
  export const jStat: {
    readonly normal: {
      /** Quantile at probability p. */
      inv(p: number, mean: number, sd: number): number;
      cdf(x: number, mean: number, sd: number): number;
      pdf(x: number, mean: number, sd: number): number;
    };
  };
}
