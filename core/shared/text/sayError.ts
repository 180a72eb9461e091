import type { ErrorCode, PlainError } from '../errors.ts';
import type { RecordKind } from '../records.ts';
import { localDayOf } from '../time.ts';
import { BODY_STYLES, type BodyStyle, type PanelId } from '../vocabulary.ts';
import { en } from './en.ts';
import { count, film, money } from './format.ts';
import { amountText, type Manner, PLAIN_MANNER } from './manner.ts';
import { isTextKey, type Locale, type PaperLocale, say } from './say.ts';
import { date, dayText, when } from './when.ts';

/** Fields of an error's data that hold one of the trade's words, and the group it is looked up in. */
const WORD_FIELDS: Readonly<Record<string, string>> = {
  stage: 'stage',
  before: 'stage',
  after: 'stage',
  panel: 'panel',
  panels: 'panel',
  defect: 'defect',
  material: 'material',
  bayKind: 'bay',
  skill: 'skill',
  level: 'level',
  body: 'body',
  jobState: 'jobState',
  stageState: 'stageState',
  lacks: 'lacks',
};

/** Refusals whose `what` is a record. */
const RECORD_CODES: ReadonlySet<ErrorCode> = new Set(['NOT_FOUND', 'STALE']);

/** Does not compile while a code lacks its sentence, and names the code. */
const sentences: Readonly<Record<`error.${ErrorCode}`, string>> = en;

/** Does not compile while a record has no word. */
const records: Readonly<Record<`word.record.${RecordKind}`, string>> = en;

/** A panel's name on a body; some bodies call one by another name (`boot lid`, `tailgate`, `rear doors`). */
export function panelName(locale: PaperLocale, panel: PanelId, body?: BodyStyle): string {
  const own = `word.panelOf.${body}.${panel}` as const;
  return say(locale, body && isTextKey(own) ? own : `word.panel.${panel}`);
}

/** Panels by their names on a body; none = the whole car. */
export function panelNames(locale: Locale, panels: readonly PanelId[], body?: BodyStyle): string {
  const names = panels.map((panel) => panelName(locale, panel, body));
  return names.length === 0 ? say(locale, 'word.wholeCar') : names.join(', ');
}

/**
 * The sentence of a refusal. Every code needs its text `error.<CODE>`, or this file does not compile.
 * Data is made sayable by its field name: `…AtMs` and `…AtMin` are instants, `…OnMs` their days with the year,
 * `…day` local days, `…OnDay` with the year, `…Minor` money, `…TenthUm` film, `…Mileage` whole figures in the shop's
 * groups, words of the trade are translated, figures with a fraction have the shop's mark, lists are joined by commas;
 * all else is filled in as it is.
 * Panels are called as they are on the `body` beside them.
 */
export function sayError(locale: Locale, error: PlainError, manner: Manner = PLAIN_MANNER): string {
  const key: string = `error.${error.code}`;
  const values: Record<string, string | number | boolean> = {};
  for (const [field, value] of Object.entries(error.data))
    values[field] =
      WORD_FIELDS[field] === 'panel'
        ? panelsSaid(locale, value, error.data)
        : sayable(locale, field, value, manner);
  if (error.code === 'BAD_INPUT') values['field'] = fieldName(locale, error.data['field']);
  const record = `word.record.${values['what']}`;
  if (RECORD_CODES.has(error.code) && Object.hasOwn(records, record) && isTextKey(record))
    values['what'] = say(locale, record);
  const problem = `problem.${values['problem']}`;
  if (isTextKey(problem)) values['problem'] = say(locale, problem, values);
  return Object.hasOwn(sentences, key) && isTextKey(key) ? say(locale, key, values) : error.code;
}

function panelsSaid(locale: Locale, value: unknown, data: PlainError['data']): string {
  const known = BODY_STYLES.find((style) => 'body' in data && style === data.body);
  const panels: readonly unknown[] = Array.isArray(value) ? value : [value];
  const name = (panel: unknown): string =>
    isTextKey(`word.panel.${panel}`) ? panelName(locale, panel as PanelId, known) : String(panel ?? '');
  return panels.length === 0 ? panelNames(locale, []) : panels.map(name).join(', ');
}

/** A field's dotted path as people call it, with its place in a list; without words of its own the path as it is. */
function fieldName(locale: Locale, path: unknown): string {
  const parts = String(path).split('.');
  // Of a list of plain figures the list is what has a name.
  const word = `field.${parts.findLast((part) => !/^\d+$/.test(part))}`;
  if (!isTextKey(word)) return String(path);
  const place = parts.find((part) => /^\d+$/.test(part));
  if (place === undefined) return say(locale, word);
  return say(locale, 'field.inLine', { field: say(locale, word), line: Number(place) + 1 });
}

/** A value as its field name says it is meant. */
export function sayable(
  locale: Locale,
  field: string,
  value: unknown,
  manner: Manner,
): string | number | boolean {
  if (Array.isArray(value)) return value.map((v) => sayable(locale, field, v, manner)).join(', ');
  if (typeof value === 'number') return sayableNumber(field, value, manner);
  if (typeof value === 'boolean') return value;
  if (typeof value !== 'string') return value === null || value === undefined ? '' : JSON.stringify(value);
  if (/OnDay$/.test(field)) return date(manner, value as never);
  if (/day$/i.test(field) && /^\d{4}-\d{2}-\d{2}$/.test(value)) return dayText(manner, value as never);
  const word = field === 'setting' ? `setting.${value}` : `word.${WORD_FIELDS[field]}.${value}`;
  return isTextKey(word) ? say(locale, word) : value;
}

function sayableNumber(field: string, value: number, manner: Manner): string | number {
  if (field.endsWith('AtMs')) return when(manner, value, value - 30 * 86_400_000);
  if (field.endsWith('OnMs')) return date(manner, localDayOf(value, manner.zone));
  if (field.endsWith('AtMin')) return when(manner, value * 60_000, value * 60_000 - 30 * 86_400_000);
  if (field.endsWith('TenthUm')) return amountText(film(manner, value));
  if (field.endsWith('Minor')) return money(manner, value);
  if (field.endsWith('Mileage')) return count(manner, value);
  const fraction = /\.(\d+)$/.exec(String(value))?.[1];
  return fraction ? count(manner, value, fraction.length) : value;
}
