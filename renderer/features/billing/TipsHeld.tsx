import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import type { HeldTip, MoneyDesk } from '#core/shared/views/moneyDesk.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './billing.module.css';
import { InCoins } from './InCoins.tsx';
import { PayWay, type Way } from './PayWay.tsx';

/** Tips that wait to be paid out, by person. */
export function TipsHeld(props: { readonly desk: MoneyDesk }): ReactNode {
  const t = useText();
  const manner = useManner();
  const isOwner = useMay('owner');
  const { tips, tipsMinor } = props.desk;
  const [asked, setAsked] = useState<string | null>(null);
  const chosen = tips.find((tip) => keyOf(tip) === asked);
  return (
    <div>
      <Head level={3} title={t('tips.held')} note={money(manner, tipsMinor)} />
      {tips.length === 0 ? <p className="quiet">{t('tips.noneHeld')}</p> : null}
      <List label={t('tips.held')}>
        {tips.map((tip) => (
          <Item key={keyOf(tip)}>
            <span className={`${css['grow']} cut`}>{tip.name || t('invoice.tipShared')}</span>
            <span className={css['end']}>
              {money(manner, tip.heldMinor)}{' '}
              {isOwner ? (
                <LinkButton quiet onPress={() => setAsked(keyOf(tip))}>
                  {t('tips.pay')}
                </LinkButton>
              ) : null}
            </span>
          </Item>
        ))}
      </List>
      {chosen ? <PayOut key={asked} tip={chosen} /> : null}
    </div>
  );
}

function keyOf({ personId }: HeldTip): string {
  return personId ?? '';
}

function PayOut(props: { readonly tip: HeldTip }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { personId, heldMinor, cashMinor } = props.tip;
  const [way, setWay] = useState<Way>('cash');
  const pay = useCommand('billing.payTips');
  const amountMinor = way === 'cash' ? cashMinor : heldMinor;
  return (
    <section className={css['form']}>
      <PayWay value={way} onChange={setWay} />
      <InCoins way={way} exactMinor={heldMinor} cashMinor={cashMinor} />
      <Refusal refusal={pay.refusal} />
      <Row>
        <Button
          kind="final"
          busy={pay.busy}
          why={amountMinor > 0 ? undefined : t('money.noCoins')}
          onPress={() => void pay.run({ personId, amountMinor, way })}
        >
          {t('tips.payNow', { amount: money(manner, amountMinor) })}
        </Button>
      </Row>
      <p className="t1 dusty">{t('tips.caution')}</p>
    </section>
  );
}
