import loadHighs from 'highs';

export type GeneralAnswer = {
  /** The best value found; null when there is none or none was found in time. */
  readonly value: number | null;
  readonly proved: boolean;
};

/**
 * What a general-purpose solver makes of a mixed-integer model in CPLEX's LP format within so many seconds. Our own
 * search is held to it and measured beside it; the program itself does without.
 * @source HiGHS (highs.dev), MIT
 */
export async function generalAnswer(model: string, seconds: number): Promise<GeneralAnswer> {
  const highs = await loadHighs();
  const found = highs.solve(model, { output_flag: false, time_limit: seconds, mip_rel_gap: 0 });
  const proved = found.Status === 'Optimal';
  const some = proved || (found.Status === 'Time limit reached' && Math.abs(found.ObjectiveValue) < 1e20);
  return { value: some ? found.ObjectiveValue : null, proved };
}

/** Terms of a sum as the format writes them, with line breaks: it allows no line of more than 560 signs. */
export function sum(terms: readonly (readonly [factor: number, name: string])[]): string {
  return terms.map(([f, name]) => `${f < 0 ? '-' : '+'} ${Math.abs(f)} ${name}`).join('\n ');
}
