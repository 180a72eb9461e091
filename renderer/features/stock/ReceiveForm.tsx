import { type ReactNode, useRef, useState } from 'react';
import type { SentFor } from '#core/shared/catalogue.ts';
import type { PlainError } from '#core/shared/errors.ts';
import type { PurchaseOrderRow } from '#core/shared/views/stock.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { CalmNote, Refusal } from '../../ui/States.tsx';
import { type Came, cameOf } from './came.ts';
import { OrderedLine } from './OrderedLine.tsx';

/** What was agreed to, of which items. */
type Yes = Partial<Record<'acceptMore' | 'acceptOtherPack' | 'acceptPrice', string[]>>;

/** What came of each ordered line, booked in together; more than ordered or another pack asks first. */
export function ReceiveForm(props: { readonly order: PurchaseOrderRow }): ReactNode {
  const t = useText();
  const { order } = props;
  const [came, setCame] = useState<Readonly<Record<string, Came>>>({});
  const [raised, setRaised] = useState<readonly string[]>([]);
  const [yes, setYes] = useState<Yes>({});
  const receive = useCommand('stock.receive');
  let unpriced = false;
  const lines: SentFor<'stock.receive'>['lines'] = order.lines.flatMap((l) => {
    const { packs, priceMinor, ...rest } = came[l.id] ?? cameOf(l);
    if (packs === null || packs <= 0) return [];
    unpriced ||= priceMinor === null;
    return [{ lineId: l.id, itemId: l.itemId, packs, priceMinor: priceMinor ?? 0, ...rest }];
  });
  async function book(said: Yes): Promise<void> {
    setYes(said);
    const sent = { supplierId: order.supplierId, orderId: order.id, lines, ...said };
    const done = await receive.run(sent);
    if (!done.ok) return;
    setCame({});
    setYes({});
    setRaised(done.value.raised);
  }
  /** What was asked about, and agreed to, were other figures. */
  function write(next: typeof came): void {
    receive.clear();
    setYes({});
    setCame(next);
  }
  const open = order.state === 'ordered' || order.state === 'part';
  return (
    <Stack gap={1}>
      {order.lines.map((line) => (
        <OrderedLine
          key={line.id}
          order={order}
          line={line}
          came={came[line.id] ?? cameOf(line)}
          onCame={(value) => write({ ...came, [line.id]: value })}
        />
      ))}
      {raised.length > 0 ? (
        <CalmNote title={t('stock.ui.raised', { items: raised.join(', ') })} text={t('stock.ui.raisedNext')}>
          {order.lines
            .filter((l) => raised.includes(l.itemName))
            .map((l) => (
              <LinkTo key={l.id} to={`/stock/items/${l.itemId}`} quiet>
                {l.itemName}
              </LinkTo>
            ))}
        </CalmNote>
      ) : null}
      <Asked
        refusal={receive.refusal}
        onYes={(field, item) => {
          const ids = order.lines.filter((l) => l.itemName === item).map((l) => l.itemId);
          void book({ ...yes, [field]: [...(yes[field] ?? []), ...ids] });
        }}
      />
      {open ? (
        <Go
          busy={receive.busy}
          why={
            lines.length === 0 ? t('stock.ui.bookInNone') : unpriced ? t('stock.ui.priceFirst') : undefined
          }
          onAll={() => write(Object.fromEntries(order.lines.map((l) => [l.id, cameOf(l, true)])))}
          onBook={() => void book({})}
        />
      ) : null}
    </Stack>
  );
}

/** What is asked about before anything is put in stock, each with its own yes. */
function Asked(props: {
  readonly refusal: PlainError | null;
  readonly onYes: (field: keyof Yes, item: string) => void;
}): ReactNode {
  const t = useText();
  const code = props.refusal?.code;
  const ask = code === undefined ? undefined : ASKS.find((a) => a.code === code);
  const said: Readonly<Record<string, unknown>> = { ...props.refusal?.data };
  return (
    <Refusal refusal={props.refusal}>
      {ask ? (
        <LinkButton onPress={() => props.onYes(ask.field, String(said['item']))}>{t(ask.word)}</LinkButton>
      ) : null}
    </Refusal>
  );
}
const ASKS = [
  { code: 'ABOVE_ORDER', word: 'stock.ui.keepMore', field: 'acceptMore' },
  { code: 'OTHER_PACK', word: 'stock.ui.packIsRight', field: 'acceptOtherPack' },
  { code: 'PRICE_UNLIKELY', word: 'stock.ui.priceIsRight', field: 'acceptPrice' },
] as const;

/** Filling all of it in books nothing: it says so, and goes on to the button that does. */
function Go(props: {
  readonly busy: boolean;
  readonly why: string | undefined;
  readonly onAll: () => void;
  readonly onBook: () => void;
}): ReactNode {
  const t = useText();
  const [filled, setFilled] = useState(false);
  const next = useRef<HTMLButtonElement>(null);
  function fill(): void {
    props.onAll();
    setFilled(true);
    next.current?.focus();
  }
  return (
    <Row>
      <Button ref={next} kind="go" busy={props.busy} why={props.why} onPress={props.onBook}>
        {t('stock.ui.bookIn')}
      </Button>
      <LinkButton quiet onPress={fill}>
        {t('stock.ui.allCame')}
      </LinkButton>
      {filled && props.why === undefined ? (
        <span className="t1 lamp" role="status">
          {t('stock.ui.filledIn')}
        </span>
      ) : null}
    </Row>
  );
}
