/** The part of the library jstat (MIT) that is used; it ships no types. */
declare module 'jstat' {
  type Distributions = {
    readonly studentt: { inv(p: number, df: number): number };
    readonly normal: {
      /** Quantile at probability p. */
      inv(p: number, mean: number, sd: number): number;
      cdf(x: number, mean: number, sd: number): number;
      pdf(x: number, mean: number, sd: number): number;
    };
    /** Ordinary least squares of y on the columns of x; throws on a single column. */
    readonly models: { ols(y: number[], x: number[][]): { readonly coef: number[] } };
  };
  export const jStat: Distributions;
  const all: { readonly jStat: Distributions };
  export default all;
}
