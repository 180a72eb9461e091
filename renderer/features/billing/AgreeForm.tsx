import { type ReactNode, useState } from 'react';
import { CONSENT_WAYS, type ConsentWay } from '#core/shared/consent.ts';
import { money } from '#core/shared/text/format.ts';
import type { EpochMin } from '#core/shared/units.ts';
import type { OptionLetter, QuoteView } from '#core/shared/views/billing.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Check, Segmented } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import { AboveCeiling } from './AboveCeiling.tsx';
import css from './billing.module.css';
import { laterPickUp, PickUpCheck, QuoteTimes } from './QuoteTimes.tsx';

/** Who agrees to which option, how, and of a booked car to which pick-up. */
export function AgreeForm({ quote }: { readonly quote: QuoteView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const [letter, setLetter] = useState<OptionLetter>(quote.options[0]?.letter ?? 'A');
  const [name, setName] = useState(quote.payer.name);
  const [way, setWay] = useState<ConsentWay>('spoken');
  const [knowingly, setKnowingly] = useState(false);
  // What was agreed is that pick-up, not whichever is shown later.
  const [agreedMin, setAgreedMin] = useState<EpochMin | null>(null);
  const accept = useCommand('billing.acceptQuote');
  const option = quote.options.find((o) => o.letter === letter);
  const later = option ? laterPickUp(quote, option) : null;
  const moves = later !== null && later.pickUpMin === agreedMin ? { pickUpMin: later.pickUpMin } : {};
  const said = { quoteId: quote.id, revision: quote.revision, letter, name, way, knowingly, ...moves };
  const amount = money(manner, option?.totals.toPayMinor ?? 0);
  return (
    <section className={css['form']}>
      <Head level={3} title={t('quote.agree')} />
      {quote.options.length > 1 ? (
        <Segmented
          label={t('quote.agreeOption')}
          value={letter}
          onChange={setLetter}
          options={quote.options.map((o) => ({ value: o.letter, label: o.letter }))}
        />
      ) : null}
      {option ? <p className="strong">{`${letter} · ${option.title}`}</p> : null}
      <WhoAgrees name={name} onName={setName} way={way} onWay={setWay} />
      {option ? <AboveCeiling quote={quote} options={[option]} /> : null}
      {option ? <QuoteTimes quote={quote} option={option} /> : null}
      <PickUpCheck later={later} agreedMin={agreedMin} onAgree={setAgreedMin} />
      {quote.lapsed ? <Check label={t('quote.knowingly')} value={knowingly} onChange={setKnowingly} /> : null}
      <Refusal refusal={accept.refusal} />
      <Row>
        <Button kind="go" busy={accept.busy} onPress={() => void accept.run(said)}>
          {t('quote.agreeNow', { letter, amount })}
        </Button>
      </Row>
    </section>
  );
}

function WhoAgrees(props: {
  readonly name: string;
  readonly onName: (name: string) => void;
  readonly way: ConsentWay;
  readonly onWay: (way: ConsentWay) => void;
}): ReactNode {
  const t = useText();
  return (
    <div className={css['two']}>
      <TextField label={t('quote.agreeName')} value={props.name} onChange={props.onName} maxLength={120} />
      <Select
        label={t('quote.agreeWay')}
        value={props.way}
        onChange={props.onWay}
        options={CONSENT_WAYS.map((value) => ({ value, label: t(`quote.way.${value}`) }))}
      />
    </div>
  );
}
