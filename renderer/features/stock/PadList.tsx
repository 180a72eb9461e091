import { type ReactNode, useState } from 'react';
import { dayText } from '#core/shared/text/when.ts';
import type { PadRow } from '#core/shared/views/stock.ts';
import { useMay } from '../../bridge/person.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';
import { PadActs } from './PadActs.tsx';
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
        <span className="right num quiet">{pad.dirty}</span>
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
              : t('stock.ui.padState', { state: stateOf(pad), inUse: pad.inUse })}
          </span>
          <span className="t1 dusty">
            {lack
              ? `${t('stock.ui.padWash', { helps: lack.washHelps, by: dayText(manner, lack.washBy) })} `
              : null}
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
  if (pad.dirty > 0) return 'toWash';
  return pad.washing > 0 ? 'inWash' : 'gone';
}

const MOST_DOTS = 28;

function Dots(props: { readonly pad: PadRow }): ReactNode {
  const t = useText();
  const { clean, inUse, dirty, washing, retired } = props.pad;
  const all = [
    ...new Array<string>(clean - inUse).fill('clean'),
    ...new Array<string>(inUse).fill('inUse'),
    ...new Array<string>(dirty).fill('dirty'),
    ...new Array<string>(washing).fill('washing'),
    ...new Array<string>(retired).fill('retired'),
  ];
  return (
    <span
      className={css['dots']}
      role="img"
      aria-label={t('stock.ui.padDots', { clean, inUse, dirty, washing, retired })}
    >
      {all.slice(0, MOST_DOTS).map((state, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: pieces are alike, only their number counts
        <i key={i} data-state={state} />
      ))}
      {all.length > MOST_DOTS ? <span className="t1 dusty">+{all.length - MOST_DOTS}</span> : null}
    </span>
  );
}
