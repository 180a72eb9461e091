import type { catalogue, EntryName } from '../catalogue.ts';
import type { LocalDay } from '../units.ts';
import type { JournalLine, JournalThing } from '../views/people.ts';
import { en, type TextKey } from './en.ts';
import type { Manner } from './manner.ts';
import { isTextKey, type Locale, say } from './say.ts';
import { dayText } from './when.ts';

type WriteName = {
  [K in EntryName]: (typeof catalogue)[K]['kind'] extends 'write' ? K : never;
}[EntryName];

/** Does not compile while a write of the catalogue lacks its sentence, and names the write. */
const sentences: Readonly<Record<`journal.${WriteName}`, string>> = en;

/** Writes whose fields are worth naming: they change some of what a record says, and which is all that tells them apart. */
const EDITS: readonly string[] = [
  'shop.update',
  'shop.changeSettings',
  'access.changePerson',
  'people.changeCustomer',
  'people.changeVehicle',
  'paint.setStep',
  'bookings.changeJob',
  'stock.changeItem',
  'stock.changeSupplier',
] satisfies WriteName[];

const MOST_NAMED = 3;

/** What was done in a journal row, as one sentence after the name of who did it: `finished cut on job 1315 (Farrow)`. */
export function sayJournal(manner: Manner, line: JournalLine): string {
  const { locale } = manner;
  const key = `journal.${line.command}`;
  if (!isTextKey(key) || !Object.hasOwn(sentences, key)) return say(locale, 'journal.otherVersion');
  const act = say(locale, key, { what: whatOf(manner, line.things), first: line.fields[0] ?? '' });
  const fields = EDITS.includes(line.command) ? fieldWords(locale, line.fields) : '';
  return fields === '' ? act : say(locale, 'journal.fields', { act, fields });
}

/** All things of the first one's kind, the first three by name; a job's own records stand before what hangs on them. */
function whatOf(manner: Manner, things: readonly JournalThing[]): string {
  const { locale } = manner;
  const lead = things[0];
  if (!lead) return say(locale, 'journal.gone');
  const named = [...new Set(things.filter((t) => t.kind === lead.kind).map((t) => thingText(manner, t)))];
  const more = named.length - MOST_NAMED;
  const shown = named.slice(0, MOST_NAMED);
  return (more > 0 ? [...shown, say(locale, 'journal.more', { count: more })] : shown).join(', ');
}

function thingText(manner: Manner, thing: JournalThing): string {
  const { locale } = manner;
  return say(locale, `journal.thing.${thing.kind}`, {
    name: thing.name,
    number: String(thing.number ?? ''),
    word: wordOf(locale, thing),
    all: thing.kind === 'closure' ? thing.name === '' : thing.word === '',
    day: thing.day === '' ? '' : dayText(manner, thing.day as LocalDay),
  });
}

const WORDS: Readonly<Partial<Record<JournalThing['kind'], readonly string[]>>> = {
  stage: ['word.stage'],
  panel: ['word.panel'],
  step: ['estimate.step'],
  rate: ['word.stage', 'word.skill'],
};

function wordOf(locale: Locale, thing: JournalThing): string {
  const key = WORDS[thing.kind]?.map((group) => `${group}.${thing.word}`).find(isTextKey);
  return key ? say(locale, key) : thing.word;
}

/** The fields that have a name on a screen; ids and counters have none. */
function fieldWords(locale: Locale, fields: readonly string[]): string {
  const keys = fields.map((field) => [`field.${field}`, `setting.${field}`].find(isTextKey));
  return [...new Set(keys.filter((key): key is TextKey => key !== undefined))]
    .map((key) => say(locale, key))
    .join(', ');
}
