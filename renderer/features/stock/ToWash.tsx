import type { ReactNode } from 'react';
import { isToWash } from '#core/shared/stockList.ts';
import { dayText } from '#core/shared/text/when.ts';
import type { PadRow, StockBoard } from '#core/shared/views/stock.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';

/** Pads and towels that a booked job will lack clean while dirty ones lie about, and what is to come out of the wash. */
export function ToWash(props: { readonly board: StockBoard }): ReactNode {
  const t = useText();
  const dirty = props.board.pads.filter(isToWash);
  const washing = props.board.pads.filter((pad) => pad.washing > 0 && !isToWash(pad));
  if (dirty.length + washing.length === 0) return null;
  return (
    <section aria-label={t('stock.ui.toWash')}>
      <Head
        level={3}
        title={t('stock.ui.toWash')}
        note={dirty.length > 0 ? String(dirty.length) : undefined}
      />
      <Stack gap={1}>
        {[...dirty, ...washing].map((pad) => (
          <Line key={pad.itemId} pad={pad} />
        ))}
      </Stack>
    </section>
  );
}

/** Washed ones are taken out first: they free the machine. */
function Line(props: { readonly pad: PadRow }): ReactNode {
  const t = useText();
  const manner = useManner();
  const wash = useCommand('stock.padsWash');
  const { itemId, itemName, shortage, dirty, washing } = props.pad;
  const lit = isToWash(props.pad);
  const steps = [
    { step: 'out', pieces: washing, act: t('stock.ui.washedAll', { pieces: washing }) },
    { step: 'in', pieces: dirty, act: t('stock.ui.washAll', { pieces: dirty }) },
  ] as const;
  return (
    <div className={lit ? 'lit' : 'quiet'} data-wash={itemId}>
      <p>
        <b>{itemName}</b>
        {lit && shortage ? (
          <span className="quiet">
            {' '}
            {t('stock.ui.washFor', {
              customer: shortage.customer,
              day: dayText(manner, shortage.day),
              needs: shortage.needs,
              has: shortage.has,
              by: dayText(manner, shortage.washBy),
            })}
          </span>
        ) : null}
      </p>
      <Row>
        {steps.map(({ step, pieces, act }) =>
          pieces === 0 ? null : (
            <LinkButton
              key={step}
              busy={wash.busy}
              label={t('stock.ui.washLabel', { item: itemName, act })}
              onPress={() => void wash.run({ itemId, pieces, step })}
            >
              {act}
            </LinkButton>
          ),
        )}
      </Row>
      <Refusal refusal={wash.refusal} />
    </div>
  );
}
