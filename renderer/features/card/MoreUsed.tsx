import { type ReactNode, useState } from 'react';
import type { SentFor } from '#core/shared/catalogue.ts';
import type { ItemId } from '#core/shared/ids.ts';
import type { ProposedDraw } from '#core/shared/views/stockItem.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Row } from '../../ui/Layout.tsx';
import { Select } from '../../ui/Select.tsx';
import { DrawLine } from './DrawLine.tsx';

/** Amounts as they were typed: of a proposed material by its name, of an item besides by `itemKey`. */
export type Amounts = Readonly<Record<string, number>>;

const ITEM = 'item ';
const itemKey = (id: ItemId): string => `${ITEM}${id}`;

/** What a stage is finished with: the proposed as corrected, and what was used besides. */
export function drawsOf(
  proposed: readonly ProposedDraw[],
  typed: Amounts,
): NonNullable<SentFor<'bookings.finishStage'>['draws']> {
  const planned = proposed.map((d) => {
    const amount = typed[d.material] ?? d.proposed;
    return d.itemId === null ? { material: d.material, amount } : { itemId: d.itemId, amount };
  });
  const besides = Object.entries(typed).flatMap(([key, amount]) =>
    key.startsWith(ITEM) && amount > 0 ? [{ itemId: key.slice(ITEM.length), amount }] : [],
  );
  return [...planned, ...besides];
}

/** Items that nobody planned for the stage and that were used all the same. */
export function MoreUsed(props: {
  readonly proposed: readonly ProposedDraw[];
  readonly amounts: Amounts;
  readonly onChange: (amounts: Amounts) => void;
}): ReactNode {
  const t = useText();
  const [adding, setAdding] = useState(false);
  const { amounts, onChange } = props;
  const planned = new Set(props.proposed.map((d) => d.itemId));
  const items = (useQuery('stock.listItems', {}).data ?? []).filter((i) => !planned.has(i.id));
  const put = (id: ItemId, amount: number): void => onChange({ ...amounts, [itemKey(id)]: amount });
  function add(id: ItemId): void {
    setAdding(false);
    put(id, 0);
  }
  const added = items.filter((i) => amounts[itemKey(i.id)] !== undefined);
  const more = items.filter((i) => amounts[itemKey(i.id)] === undefined);
  return (
    <>
      {added.map((i) => (
        <DrawLine
          key={i.id}
          draw={{ ...i, itemId: i.id, itemName: i.name, planned: 0, proposed: 0, factor: 1, learned: [] }}
          amount={amounts[itemKey(i.id)] ?? 0}
          onChange={(amount) => put(i.id, amount)}
        />
      ))}
      {adding ? (
        <Select
          label={t('card.moreItem')}
          value={null}
          onChange={add}
          options={more.map((i) => ({ value: i.id, label: i.name, note: i.place }))}
        />
      ) : more.length > 0 ? (
        <Row>
          <Button onPress={() => setAdding(true)}>{t('card.more')}</Button>
        </Row>
      ) : null}
    </>
  );
}
