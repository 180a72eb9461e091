import { type PaperLocale, say } from '../shared/text/say.ts';
import type { StageView } from '../shared/views/bookings.ts';
import { MACHINE_STAGES } from '../shared/vocabulary.ts';

const FRESH = ['dry', 'noWash', 'spots'] as const;
/** Of paint that was wet sanded: more film is gone than by polishing, for good. */
const SANDED = ['thin', 'sun'] as const;
const ALWAYS = ['birds', 'byHand', 'noBrushes', 'readFirst'] as const;

/**
 * How fresh work is looked after, as sentences; none where paint was neither polished nor protected. A fresh coating
 * or sealant has cautions of its own for its first days, wet sanded paint for as long as it lasts; the sheet of the
 * maker and the rules of the place go before all of them.
 * @source common practice, no source; days and hours from memory
 */
export function careSentences(locale: PaperLocale, done: readonly Pick<StageView, 'kind'>[]): string[] {
  const kinds = new Set(done.map((s) => s.kind));
  const isProtected = kinds.has('protect');
  if (!isProtected && !MACHINE_STAGES.some((kind) => kinds.has(kind))) return [];
  const keys = [
    ...(isProtected ? FRESH : []),
    ...(kinds.has('sand') ? SANDED : []),
    ...ALWAYS,
    ...(isProtected ? (['sheet'] as const) : []),
    ...(kinds.has('sand') ? (['rules'] as const) : []),
  ];
  return keys.map((key) => say(locale, `doc.care.${key}`));
}
