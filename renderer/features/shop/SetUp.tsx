import { type ReactNode, useState } from 'react';
import { money, rate } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import { useCommand } from '../../bridge/commands.ts';
import { newToken } from '../../bridge/newToken.ts';
import { setSessionToken } from '../../bridge/session.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Column, Foot, Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { go } from '../../ui/router.ts';
import { Refusal } from '../../ui/States.tsx';
import { type Draft, forgetDraft, useDraft } from './draft.ts';
import { PeopleStep, PlaceStep, PriceStep, ShopStep, TaxStep } from './SetUpSteps.tsx';
import css from './shop.module.css';

const STEPS = ['shop', 'place', 'people', 'price', 'tax'] as const;
type Step = (typeof STEPS)[number];

/** First start: set up my shop, or look at the demo shop. */
export function SetUp(): ReactNode {
  const t = useText();
  const [begun, setBegun] = useState(false);
  const demo = useCommand('host.openDemo');
  if (begun) return <SetUpSteps />;
  return (
    <Place label={t('shop.first.title')}>
      <div className={css['first']}>
        <Head level={1} title={t('shop.first.title')} />
        <Stack gap={3}>
          <p className="quiet">{t('shop.first.text')}</p>
          <Row>
            <Button kind="go" onPress={() => setBegun(true)}>
              {t('shop.first.mine')}
            </Button>
            <Button busy={demo.busy} onPress={() => void openDemo()}>
              {t('shop.first.demo')}
            </Button>
          </Row>
          <p className="t1 dusty">{demo.busy ? t('shop.first.building') : t('shop.first.demoText')}</p>
          <Refusal refusal={demo.refusal} />
        </Stack>
      </div>
    </Place>
  );

  async function openDemo(): Promise<void> {
    const done = await demo.run({ rebuild: false });
    if (done.ok) location.reload();
  }
}

function SetUpSteps(): ReactNode {
  const t = useText();
  const [draft, change] = useDraft();
  const manner = { ...useManner(), region: draft.locale, currency: draft.currency };
  const [step, setStep] = useState<Step>('shop');
  const setUp = useCommand('shop.setUp');
  const missing = missingIn(draft, t);
  const next = STEPS[STEPS.indexOf(step) + 1];

  async function finish(): Promise<void> {
    const token = newToken();
    const done = await setUp.run(inputOf(draft, token));
    if (!done.ok) return;
    setSessionToken(token);
    forgetDraft();
    go('/shop', 'replace');
  }
  return (
    <Place label={t('shop.setUp.title')} columns="left">
      <Column label={t('shop.setUp.title')}>
        <Head level={1} title={t('shop.setUp.title')} note={t('shop.setUp.note')} />
        <p className="quiet">{t('shop.setUp.text')}</p>
        <List label={t('shop.setUp.title')}>
          {STEPS.map((one) => (
            <Item key={one} selected={one === step} lit={false} onPress={() => setStep(one)}>
              <span className={css['mark']} data-form={markOf(one, step, draft)} />
              <span className={css['step']}>
                <b>{t(`shop.step.${one}`)}</b>
                <span className="t1 quiet cut">{sentenceOf(one, draft, manner, t)}</span>
              </span>
            </Item>
          ))}
        </List>
        <Foot>
          <p className="t1 dusty">{t('shop.caution')}</p>
        </Foot>
      </Column>
      <Column divided label={t(`shop.step.${step}`)}>
        <Head title={t(`shop.step.${step}`)} note={t(`shop.step.${step}.note`)} />
        <StepForm step={step} draft={draft} change={change} />
        <Refusal refusal={setUp.refusal} />
        <Foot>
          {next ? (
            <Button onPress={() => setStep(next)}>
              {t('shop.setUp.next', { step: t(`shop.step.${next}`) })}
            </Button>
          ) : null}
          <Button kind="go" busy={setUp.busy} why={missing} onPress={() => void finish()}>
            {t('shop.setUp.done')}
          </Button>
          {missing ? <span className="t1 dusty">{missing}</span> : null}
        </Foot>
      </Column>
    </Place>
  );
}

function StepForm(props: {
  readonly step: Step;
  readonly draft: Draft;
  readonly change: (part: Partial<Draft>) => void;
}): ReactNode {
  const { step, ...rest } = props;
  switch (step) {
    case 'shop':
      return <ShopStep {...rest} />;
    case 'place':
      return <PlaceStep {...rest} />;
    case 'people':
      return <PeopleStep {...rest} />;
    case 'price':
      return <PriceStep {...rest} />;
    case 'tax':
      return <TaxStep {...rest} />;
  }
}

function missingIn(draft: Draft, t: Say): string | undefined {
  if (draft.name.trim() === '') return t('shop.setUp.needsName');
  if (draft.owner.trim() === '') return t('shop.setUp.needsOwner');
  return undefined;
}

function markOf(step: Step, current: Step, draft: Draft): string {
  if (step === current) return 'work';
  return isSaid(step, draft) ? 'done' : 'plan';
}

function isSaid(step: Step, draft: Draft): boolean {
  switch (step) {
    case 'shop':
      return draft.name.trim() !== '';
    case 'place':
      return draft.zone !== '';
    case 'people':
      return draft.owner.trim() !== '';
    case 'price':
      return draft.hourMinor !== null;
    case 'tax':
      return draft.taxName !== '';
  }
}

function sentenceOf(step: Step, draft: Draft, manner: Manner, t: Say): string {
  if (!isSaid(step, draft)) return t('shop.setUp.open');
  switch (step) {
    case 'shop':
      return [draft.name, draft.phone].filter(Boolean).join(', ');
    case 'place':
      return [draft.country, draft.zone, draft.currency].join(', ');
    case 'people':
      return [draft.owner, ...draft.people.map((p) => p.name)].join(', ');
    case 'price':
      return t('shop.perHour', { price: money(manner, draft.hourMinor ?? 0) });
    case 'tax':
      return `${draft.taxName} ${amountText(rate(manner, draft.taxPpm ?? 0))}`;
  }
}

function inputOf(draft: Draft, token: string) {
  const {
    owner,
    pin,
    people,
    hourMinor,
    pricesIncludeTax,
    taxName,
    taxCategory,
    taxPpm,
    taxReason,
    ...shop
  } = draft;
  return {
    shop,
    owner: { name: owner, token, ...(pin ? { pin } : {}) },
    people: [...people],
    rates: hourMinor === null ? [] : [{ hourMinor }],
    taxes: taxName.trim() === '' ? [] : [taxOf({ taxName, taxCategory, taxPpm, taxReason })],
    settings: [{ setting: 'billing.pricesIncludeTax', value: pricesIncludeTax }],
  };
}

function taxOf(draft: Pick<Draft, 'taxName' | 'taxCategory' | 'taxPpm' | 'taxReason'>) {
  return {
    name: draft.taxName,
    category: draft.taxCategory,
    ratePpm: draft.taxPpm ?? 0,
    reason: draft.taxReason,
  };
}
