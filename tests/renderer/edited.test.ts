import { describe, expect, it } from 'vitest';
import {
  arrived,
  clashesOf,
  type Edit,
  forgotten,
  mergedOf,
  typedOver,
  UNTOUCHED,
} from '../../renderer/bridge/edited.ts';

type Customer = { readonly name: string; readonly phone: string; readonly note: string };
const KEPT: Customer = { name: 'Marit Vane', phone: '0555 010', note: '' };
const untouched = UNTOUCHED as Edit<Customer>;

describe('a form that another window saves under', () => {
  it('keeps what is typed, and takes over what was saved in other fields', () => {
    const edit = typedOver(untouched, KEPT, { note: 'comes at seven' });
    const theirs = { ...KEPT, phone: '0555 999' };
    expect(arrived(edit, theirs, 2).typed).toEqual({ note: 'comes at seven' });
    expect([clashesOf(edit, theirs), mergedOf(edit, theirs)]).toEqual([[], ['phone']]);
  });

  it('asks where both changed one field, and not where both wrote the same', () => {
    const edit = typedOver(untouched, KEPT, { note: 'comes at seven', phone: '0555 999' });
    const theirs = { ...KEPT, phone: '0555 999', note: 'comes at eight' };
    expect(clashesOf(edit, theirs)).toEqual(['note']);
    expect(forgotten(edit, ['note']).typed).toEqual({ phone: '0555 999' });
    expect(forgotten(edit, ['note', 'phone'])).toEqual(UNTOUCHED);
  });

  it('remembers a field as it stood when it was first typed over', () => {
    const once = typedOver(untouched, KEPT, { note: 'a' });
    const twice = typedOver(once, { ...KEPT, note: 'theirs' }, { note: 'ab' });
    expect(twice.from).toEqual({ note: '' });
    expect(clashesOf(twice, { ...KEPT, note: 'theirs' })).toEqual(['note']);
  });

  it('does not hold its own save, stored in cleaner words, against itself', () => {
    const edit = sentAs(typedOver(untouched, KEPT, { note: ' late ' }), 2);
    expect(arrived(edit, { ...KEPT, note: 'late' }, 2)).toEqual(UNTOUCHED);
  });

  it('keeps what was typed on after the save was sent', () => {
    const sent = sentAs(typedOver(untouched, KEPT, { note: 'late', phone: '0555 011' }), 2);
    const on = typedOver(sent, KEPT, { note: 'later' });
    const stored = { ...KEPT, note: 'late', phone: '0555 011' };
    const held = arrived(on, stored, 2);
    expect([held.typed, clashesOf(held, stored), mergedOf(held, stored)]).toEqual([
      { note: 'later' },
      [],
      [],
    ]);
    expect(clashesOf(held, { ...stored, note: 'theirs' })).toEqual(['note']);
  });

  it('waits for the record that holds its save: an older one says nothing about it', () => {
    const on = typedOver(sentAs(typedOver(untouched, KEPT, { note: 'late' }), 2), KEPT, { note: 'later' });
    expect(arrived(on, KEPT, 1)).toBe(on);
  });

  it('asks where somebody saved again before its own save was seen and it was typed on meanwhile', () => {
    const on = typedOver(sentAs(typedOver(untouched, KEPT, { note: 'late' }), 2), KEPT, { note: 'later' });
    const theirs = { ...KEPT, note: 'theirs' };
    expect(clashesOf(arrived(on, theirs, 3), theirs)).toEqual(['note']);
    // Saved back to what it was before: theirs all the same.
    expect(clashesOf(arrived(on, KEPT, 3), KEPT)).toEqual(['note']);
  });
});

/** What is typed, saved as `revision` and not seen again yet. */
function sentAs(edit: Edit<Customer>, revision: number): Edit<Customer> {
  return { ...edit, sent: { fields: edit.typed, revision } };
}
