import type { LocalDay } from '#core/shared/units.ts';
import type { QuoteState } from '#core/shared/views/billing.ts';

/** True of a quote that nobody has answered while the last day it was good for is past. */
export function isLapsed(state: QuoteState, validUntilDay: LocalDay, today: LocalDay): boolean {
  return (state === 'draft' || state === 'sent') && validUntilDay < today;
}
