import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import type { TillView } from '#core/shared/views/till.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';

type Opening = { readonly floatMinor: number | null; readonly bankedMinor: number | null };

/** Counts the till. The first time it asks what lay in it before, and what went to the bank since. */
export function CountForm(props: { readonly till: TillView }): ReactNode {
  const t = useText();
  const { expectedMinor, counts } = props.till;
  const isFirst = counts.length === 0;
  const [opening, setOpening] = useState<Opening>({ floatMinor: null, bankedMinor: 0 });
  const [counted, setCounted] = useState<number | null>(null);
  const [banked, setBanked] = useState<number | null>(0);
  const [reason, setReason] = useState('');
  const count = useCommand('billing.countCash');
  const before = { floatMinor: opening.floatMinor ?? 0, bankedMinor: opening.bankedMinor ?? 0 };
  const shouldMinor = isFirst ? expectedMinor + before.floatMinor - before.bankedMinor : expectedMinor;
  const difference = counted === null ? 0 : counted - shouldMinor;
  function why(): string | undefined {
    if (isFirst && opening.floatMinor === null) return t('till.floatFirst');
    if (counted === null) return t('till.countFirst');
    return difference !== 0 && reason.trim() === '' ? t('till.reasonFirst') : undefined;
  }
  function keep(): void {
    if (counted === null) return;
    const about = { opening: isFirst ? before : null, reason };
    void count.run({ expectedMinor, countedMinor: counted, bankedMinor: banked ?? 0, ...about });
  }
  return (
    <section className={css['form']}>
      {isFirst ? <OpeningFields till={props.till} opening={opening} onChange={setOpening} /> : null}
      <Sum label={t('till.expected')} minor={shouldMinor} strong />
      <div className={css['fields']}>
        <MoneyField label={t('till.counted')} value={counted} onChange={setCounted} min={0} />
        <MoneyField label={t('till.banked')} value={banked} onChange={setBanked} min={0} />
      </div>
      {counted !== null && difference === 0 ? <p className="quiet">{t('till.fits')}</p> : null}
      {difference === 0 ? null : <Difference minor={difference} reason={reason} onReason={setReason} />}
      <Refusal refusal={count.refusal} />
      <Row>
        <Button kind="go" busy={count.busy} why={why()} onPress={keep}>
          {t('till.keep')}
        </Button>
      </Row>
    </section>
  );
}

/** What the till held before anybody counted it: its float, and what went to the bank of the cash taken. */
function OpeningFields(props: {
  readonly till: TillView;
  readonly opening: Opening;
  readonly onChange: (opening: Opening) => void;
}): ReactNode {
  const t = useText();
  const { opening, onChange } = props;
  return (
    <>
      <Head level={3} title={t('till.opening')} />
      <p className="quiet">{t('till.openingNote')}</p>
      <Sum label={t('till.receipts')} minor={props.till.expectedMinor} />
      <div className={css['fields']}>
        <MoneyField
          label={t('till.float')}
          value={opening.floatMinor}
          onChange={(floatMinor) => onChange({ ...opening, floatMinor })}
          min={0}
        />
        <MoneyField
          label={t('till.bankedBefore')}
          value={opening.bankedMinor}
          onChange={(bankedMinor) => onChange({ ...opening, bankedMinor })}
          min={0}
        />
      </div>
    </>
  );
}

function Sum(props: {
  readonly label: string;
  readonly minor: number;
  readonly strong?: boolean;
}): ReactNode {
  const manner = useManner();
  return (
    <div>
      <div className="t1 dusty">{props.label}</div>
      <div className={props.strong ? 't4 num' : 'num'}>{money(manner, props.minor)}</div>
    </div>
  );
}

function Difference(props: {
  readonly minor: number;
  readonly reason: string;
  readonly onReason: (reason: string) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  return (
    <>
      <div className="lit">
        {t('till.difference')} <b className="num">{money(manner, props.minor)}</b>
      </div>
      <TextField label={t('till.reason')} value={props.reason} onChange={props.onReason} maxLength={300} />
    </>
  );
}
