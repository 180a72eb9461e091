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
    expect(arrived(edit, theirs).typed).toEqual({ note: 'comes at seven' });
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
    const edit = typedOver(untouched, KEPT, { note: ' late ' });
    expect(arrived({ ...edit, sent: edit.typed }, { ...KEPT, note: 'late' })).toEqual(UNTOUCHED);
  });

  it('keeps what was typed on after the save was sent', () => {
    const sent = typedOver(untouched, KEPT, { note: 'late' });
    const on = typedOver({ ...sent, sent: sent.typed }, KEPT, { note: 'later' });
    const stored = { ...KEPT, note: 'late' };
    const held = arrived(on, stored);
    expect([held.typed, clashesOf(held, stored)]).toEqual([{ note: 'later' }, []]);
    expect(clashesOf(held, { ...KEPT, note: 'theirs' })).toEqual(['note']);
  });
});
