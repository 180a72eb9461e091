import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type BatchDoor, batchDoorOver } from '#core/host/batchDoor.ts';
import { openTestShop, TEST_NOW, type TestShop } from '../../helpers/shop.ts';

let shop: TestShop;
let door: BatchDoor;

beforeEach(() => {
  shop = openTestShop();
  door = batchDoorOver(shop.db, 1, TEST_NOW);
  door.as({ id: shop.people.owner, name: 'The owner', role: 'owner' });
});
afterEach(() => shop.close());

const names = (): unknown[] => shop.db.raw.prepare('SELECT name FROM customer ORDER BY name').pluck().all();
const add = (name: string): unknown => door.write('people.addCustomer', { name });
const UNKNOWN = { customerId: '0'.repeat(20), revision: 1, name: 'Nobody' } as never;

describe('commands of a batch', () => {
  it('are kept together, and one that is refused before it wrote takes nothing with it', () => {
    door.batch(() => {
      add('Marit Vane');
      expect(() => door.write('people.changeCustomer', UNKNOWN)).toThrow('NOT_FOUND');
      add('Odo Lindqvist');
    });
    expect(names()).toEqual(['Marit Vane', 'Odo Lindqvist']);
  });

  it('nothing of them is kept after one that failed half done, even where the caller goes on', () => {
    // The customer is written before the journal's line is refused.
    shop.db.raw.exec(`CREATE TEMP TRIGGER stop_line BEFORE INSERT ON journal
      WHEN (SELECT count(*) FROM customer) = 2 BEGIN SELECT RAISE(ABORT, 'no more'); END`);
    const batch = (): void =>
      door.batch(() => {
        add('Marit Vane');
        expect(() => add('Odo Lindqvist')).toThrow();
        shop.db.raw.exec('DROP TRIGGER stop_line');
        add('Wanda Kerr');
      });
    expect(batch).toThrow('no more');
    expect(names()).toEqual([]);
    door.batch(() => void add('Wanda Kerr'));
    expect(names()).toEqual(['Wanda Kerr']);
  });

  it('outside of a batch one that failed half done is undone alone', () => {
    add('Marit Vane');
    shop.db.raw.exec(
      `CREATE TEMP TRIGGER stop_line BEFORE INSERT ON journal BEGIN SELECT RAISE(ABORT, 'no more'); END`,
    );
    expect(() => add('Odo Lindqvist')).toThrow();
    expect(names()).toEqual(['Marit Vane']);
  });
});
