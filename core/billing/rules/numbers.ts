import { refuse } from '#core/shared/errors.ts';
import { localDaysBetween } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';

/** How somebody answered a doubtful date: not asked yet, today's date is right, use the last document's. */
export const DATE_CHOICES = ['ask', 'today', 'lastDay'] as const;
export type DateChoice = (typeof DATE_CHOICES)[number];

/** A clock further ahead of the last document than this is doubted. Common practice, no source. */
export const DAYS_AHEAD = 7;

/**
 * The date a document is issued under. Dates follow the numbers: never before the last of the series.
 * A clock behind the last document is answered by that document's day or not at all; one more than 7 days ahead
 * by a yes to today's date.
 * @throws ISSUE_DATE_BEHIND · ISSUE_DATE_AHEAD
 */
export function issueDay(today: LocalDay, lastDay: LocalDay | null, choice: DateChoice): LocalDay {
  if (lastDay === null) return today;
  const ahead = localDaysBetween(lastDay, today);
  if (ahead < 0) return choice === 'lastDay' ? lastDay : refuse('ISSUE_DATE_BEHIND', { today, lastDay });
  if (ahead > DAYS_AHEAD && choice === 'ask') return refuse('ISSUE_DATE_AHEAD', { today, lastDay });
  return today;
}

/**
 * The number of the next document: one after the last, in this file or on paper.
 * @throws NUMBER_TO_CONFIRM when the file was restored from a copy and nobody has looked at the last paper yet
 */
export function nextDocumentNumber(lastInFile: number, lastOnPaper: number, mustAsk: boolean): number {
  if (mustAsk) return refuse('NUMBER_TO_CONFIRM', { last: lastInFile });
  return Math.max(lastInFile, lastOnPaper) + 1;
}

/** What is known of the series of numbers; `lastOnPaper` is what somebody read from paper at some time, else 0. */
export type Series = {
  readonly lastNumber: number;
  readonly lastOnPaper: number;
  /** The file came from a copy and nobody has looked at the last paper yet. */
  readonly ask: boolean;
  /** The doctor finds a number that does not follow the one before. */
  readonly hasGaps: boolean;
};

/**
 * What somebody reads from the last paper. It may be ahead of the file, never behind it; and it is taken only where the
 * series is in doubt: after a restore, with a gap that the doctor finds, before the first document, and to correct what
 * was read while no document followed it.
 * @throws PAPER_NUMBER_TOO_LOW · NUMBER_CERTAIN
 */
export function confirmedLast(series: Series, onPaper: number): number {
  const { lastNumber: last, lastOnPaper, ask, hasGaps } = series;
  if (onPaper < last) return refuse('PAPER_NUMBER_TOO_LOW', { last, paper: onPaper });
  const inDoubt = ask || hasGaps || last === 0 || lastOnPaper > last;
  return inDoubt ? onPaper : refuse('NUMBER_CERTAIN', { last });
}
