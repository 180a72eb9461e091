import { type ReactNode, useState } from 'react';
import { amountOf, money } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { dayText } from '#core/shared/text/when.ts';
import type { PurchaseOrderLineView, PurchaseOrderRow } from '#core/shared/views/stock.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Refusal } from '../../ui/States.tsx';
import { CameFields } from './CameFields.tsx';
import { type Came, dueOf } from './came.ts';
import { ExpectedDay } from './ExpectedDay.tsx';
import { packsText } from './looks.ts';
import css from './stock.module.css';

/** One ordered line: what is still due, what came now, and how that differed. */
export function OrderedLine(props: {
  readonly order: PurchaseOrderRow;
  readonly line: PurchaseOrderLineView;
  readonly came: Came;
  readonly onCame: (came: Came) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { order, line, came, onCame } = props;
  const [differs, setDiffers] = useState(false);
  const [otherDay, setOtherDay] = useState(false);
  const due = dueOf(line);
  return (
    <>
      <div className={css['ordered']} data-line={line.itemId}>
        <span className="cut" title={line.itemName}>
          <b>{line.itemName}</b>
        </span>
        <span className="num">{packsText(manner, line.packs, line.packSize, line.unit)}</span>
        <span className="num right">{money(manner, line.priceMinor)}</span>
        <span className={due > 0 && (line.receivedPacks > 0 || line.late) ? 'lamp' : 'quiet'}>
          {t('stock.ui.lineState', { came: line.receivedPacks, due, given: line.cancelledPacks })}
          {due > 0 ? (
            <span className={css['expected']}>
              {t('stock.ui.expected', { late: line.late, day: dayText(manner, line.dueDay) })}
            </span>
          ) : null}
        </span>
        {due > 0 ? (
          <>
            <NumberField
              label={t('stock.ui.cameNow')}
              value={came.packs}
              onChange={(packs) => onCame({ ...came, packs })}
              min={0}
            />
            <LineActs
              order={order}
              line={line}
              onDiffers={() => setDiffers(!differs)}
              onOtherDay={() => setOtherDay(!otherDay)}
            />
          </>
        ) : null}
      </div>
      {otherDay && due > 0 ? (
        <ExpectedDay order={order} line={line} onDone={() => setOtherDay(false)} />
      ) : null}
      {differs && due > 0 ? <CameFields unit={line.unit} came={came} onCame={onCame} /> : null}
      {came.packSize === line.packSize ? null : (
        <p className="t1 lamp">
          {t('stock.ui.otherPackNow', { pack: amountText(amountOf(manner, line.unit, came.packSize)) })}
        </p>
      )}
    </>
  );
}

/** What can be said of a line besides how much came: how it differed, when the rest comes, that it never will. */
function LineActs(props: {
  readonly order: PurchaseOrderRow;
  readonly line: PurchaseOrderLineView;
  readonly onDiffers: () => void;
  readonly onOtherDay: () => void;
}): ReactNode {
  const t = useText();
  const { order, line } = props;
  const cancel = useCommand('stock.cancelOrderLine');
  const giveUp = { orderId: order.id, lineId: line.id, revision: order.revision };
  return (
    <span className={css['lineActs']}>
      <LinkButton quiet onPress={props.onDiffers}>
        {t('stock.ui.otherThanOrdered')}
      </LinkButton>
      <LinkButton quiet onPress={props.onOtherDay}>
        {t('stock.ui.otherDay')}
      </LinkButton>
      <LinkButton quiet onPress={() => void cancel.run(giveUp)}>
        {t('stock.ui.giveUp')}
      </LinkButton>
      <Refusal refusal={cancel.refusal} />
    </span>
  );
}
