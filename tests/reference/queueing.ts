/**
 * Waiting lines with Poisson arrivals, exponential service and `c` alike servers (M/M/c), for checks of simulations.
 * `a` is the offered load λ/μ in erlangs, 0 < a < c.
 */

/**
 * Erlang C: the chance that somebody has to wait. From Erlang B by its recursion B(0) = 1,
 * B(n) = a·B(n−1) / (n + a·B(n−1)), then C = c·B / (c − a·(1 − B)).
 * @source A. K. Erlang, Post Office Electrical Engineers' Journal 10 (1917) 189–197; Gross & Harris, Fundamentals of
 * Queueing Theory, 2.3 (from memory)
 */
export function erlangC(c: number, a: number): number {
  let b = 1;
  for (let n = 1; n <= c; n += 1) b = (a * b) / (n + a * b);
  return (c * b) / (c - a * (1 - b));
}

/** Mean wait before service; `serviceMin` is the mean service. @source Wq = C(c, a)·(1/μ) / (c − a), Gross & Harris 2.3 (from memory) */
export function meanWait(c: number, a: number, serviceMin: number): number {
  return (erlangC(c, a) * serviceMin) / (c - a);
}

/** Mean number waiting. @source Little: Lq = λ·Wq */
export function meanWaiting(c: number, a: number): number {
  return (erlangC(c, a) * a) / (c - a);
}
