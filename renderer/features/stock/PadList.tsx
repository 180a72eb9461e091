import { type ReactNode, useState } from 'react';
import { count } from '#core/shared/text/format.ts';
import { dayText } from '#core/shared/text/when.ts';
import type { PadRow } from '#core/shared/views/stock.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './stock.module.css';

/** Pads and towels by where they are in their round. */
export function PadList(props: { readonly pads: readonly PadRow[] }): ReactNode {
  const t = useText();
  if (props.pads.length === 0) return null;
  return (
    <section aria-label={t('stock.ui.pads')} className={css['pads']}>
      <Head title={t('stock.ui.pads')} note={t('stock.ui.padsNote')} />
      <div className={css['padHead']} aria-hidden="true">
        <span />
        <span />
        <span className="right">{t('stock.ui.clean')}</span>
        <span className="right">{t('stock.ui.dirty')}</span>
        <span className="right">{t('stock.ui.washing')}</span>
        <span className="right">{t('stock.ui.retired')}</span>
        <span />
      </div>
      {props.pads.map((pad) => (
        <PadLine key={pad.itemId} pad={pad} />
      ))}
    </section>
  );
}

function PadLine(props: { readonly pad: PadRow }): ReactNode {
  const t = useText();
  const manner = useManner();
  const desk = useMay('desk');
  const [open, setOpen] = useState(false);
  const { pad } = props;
  const lack = pad.shortage;
  return (
    <>
      <div className={css['pad']} data-lit={lack !== null} data-pad={pad.itemId}>
        <span className="cut" title={pad.itemName}>
          {desk ? <LinkTo to={`/stock/items/${pad.itemId}`}>{pad.itemName}</LinkTo> : pad.itemName}
        </span>
        <Dots pad={pad} />
        <span className="right num">{pad.clean}</span>
        <span className="right num quiet">{pad.dirty + pad.inUse}</span>
        <span className="right num quiet">{pad.washing}</span>
        <span className="right num dusty">{pad.retired}</span>
        <span className={css['state']}>
          <span className={lack ? 'lamp cut' : 'quiet cut'}>
            {lack
              ? t('stock.ui.padShort', {
                  day: dayText(manner, lack.day),
                  needs: lack.needs,
                  has: lack.has,
                })
              : t('stock.ui.padState', { state: stateOf(pad) })}
          </span>
          <span className="t1 dusty">
            {lack ? `${t('stock.ui.padWash', { helps: lack.washHelps })} ` : null}
            <LinkButton
              quiet
              label={t('stock.ui.padDoLabel', { item: pad.itemName })}
              onPress={() => setOpen(!open)}
            >
              {t('stock.ui.padDo')}
            </LinkButton>
          </span>
        </span>
      </div>
      {open ? <PadActs pad={pad} /> : null}
    </>
  );
}

/** Where no booked job lacks any. */
function stateOf(pad: PadRow): 'clean' | 'toWash' | 'inWash' | 'gone' {
  if (pad.clean > 0) return 'clean';
  if (pad.dirty + pad.inUse > 0) return 'toWash';
  return pad.washing > 0 ? 'inWash' : 'gone';
}

const MOST_DOTS = 28;

function Dots(props: { readonly pad: PadRow }): ReactNode {
  const t = useText();
  const { clean, inUse, dirty, washing, retired } = props.pad;
  const all = [
    ...new Array<string>(clean).fill('clean'),
    ...new Array<string>(inUse).fill('inUse'),
    ...new Array<string>(dirty).fill('dirty'),
    ...new Array<string>(washing).fill('washing'),
    ...new Array<string>(retired).fill('retired'),
  ];
  return (
    <span
      className={css['dots']}
      role="img"
      aria-label={t('stock.ui.padDots', { clean, dirty, washing, retired })}
    >
      {all.slice(0, MOST_DOTS).map((state, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: pieces are alike, only their number counts
        <i key={i} data-state={state} />
      ))}
      {all.length > MOST_DOTS ? <span className="t1 dusty">+{all.length - MOST_DOTS}</span> : null}
    </span>
  );
}

function PadActs(props: { readonly pad: PadRow }): ReactNode {
  const t = useText();
  const manner = useManner();
  const wash = useCommand('stock.padsWash');
  const retire = useCommand('stock.padsRetire');
  const { pad } = props;
  const { itemId } = pad;
  const none = t('stock.ui.padNone');
  const why = (pieces: number): string | undefined => (pieces === 0 ? none : undefined);
  return (
    <div className={css['padActs']}>
      <Row>
        <LinkButton
          why={why(pad.dirty)}
          onPress={() => void wash.run({ itemId, pieces: pad.dirty, step: 'in' })}
        >
          {t('stock.ui.washAll', { pieces: pad.dirty })}
        </LinkButton>
        <LinkButton
          why={why(pad.washing)}
          onPress={() => void wash.run({ itemId, pieces: pad.washing, step: 'out' })}
        >
          {t('stock.ui.washedAll', { pieces: pad.washing })}
        </LinkButton>
        {(['dirty', 'clean'] as const).map((state) => (
          <LinkButton
            key={state}
            why={why(pad[state])}
            onPress={() =>
              void retire.run({ itemId, pieces: 1, from: state, why: t('stock.ui.retireWhy', { state }) })
            }
          >
            {t('stock.ui.retireOne', { state })}
          </LinkButton>
        ))}
        <span className="t1 dusty">
          {t('stock.ui.padLife', {
            uses: count(manner, pad.usesPerLife, pad.usesPerLife < 10 ? 1 : 0),
            from: pad.learnedFrom,
          })}
        </span>
      </Row>
      <Refusal refusal={wash.refusal ?? retire.refusal} />
    </div>
  );
}
