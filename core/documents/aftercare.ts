import { type Locale, say } from '../shared/text/say.ts';
import type { StageView } from '../shared/views/bookings.ts';

const FRESH = ['dry', 'noWash', 'spots'] as const;
const ALWAYS = ['birds', 'byHand', 'noBrushes', 'readFirst'] as const;

/**
 * How fresh work is looked after, as sentences; none where paint was neither polished nor protected. A fresh coating
 * or sealant has cautions of its own for its first days, and the sheet of its maker goes before all of them.
 * @source common practice, no source; days and hours from memory
 */
export function careSentences(locale: Locale, done: readonly Pick<StageView, 'kind'>[]): string[] {
  const kinds = new Set(done.map((s) => s.kind));
  const isProtected = kinds.has('protect');
  if (!isProtected && !kinds.has('cut') && !kinds.has('refine')) return [];
  const keys = isProtected ? [...FRESH, ...ALWAYS, 'sheet' as const] : ALWAYS;
  return keys.map((key) => say(locale, `doc.care.${key}`));
}
