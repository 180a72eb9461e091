import { type ReactNode, useState } from 'react';
import { useCommand } from '../../bridge/commands.ts';
import { newToken } from '../../bridge/newToken.ts';
import { setSessionToken } from '../../bridge/session.ts';
import { MannerProvider, useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Column, Foot, Head, Place } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { go } from '../../ui/router.ts';
import { Refusal } from '../../ui/States.tsx';
import { BaysStep, HoursStep } from './BaysSteps.tsx';
import { type Draft, forgetDraft, useDraft } from './draft.ts';
import { PriceStep, TaxStep } from './MoneySteps.tsx';
import { PeopleStep } from './PeopleStep.tsx';
import { PlaceStep, ShopStep } from './SetUpSteps.tsx';
import { faultsIn, type SetUpFault, stepOfRefusal } from './setUpFaults.ts';
import css from './shop.module.css';
import { inputOf, isSaid, STEPS, type Step, sentenceOf } from './steps.ts';
import { WorkStep } from './WorkStep.tsx';

/** The steps on the left, each with what is set; the chosen one on the right. */
export function SetUpSteps(): ReactNode {
  const t = useText();
  const [draft, change] = useDraft(t);
  const manner = { ...useManner(), region: draft.locale, currency: draft.currency, zone: draft.zone };
  const [step, setStep] = useState<Step>('shop');
  const setUp = useCommand('shop.setUp');
  const faults = faultsIn(draft, t);
  const fault = faults[0];
  const next = STEPS[STEPS.indexOf(step) + 1];

  async function finish(): Promise<void> {
    const token = newToken();
    const done = await setUp.run(inputOf(draft, token));
    if (!done.ok) return setStep(stepOfRefusal(done.refusal) ?? step);
    setSessionToken(token);
    forgetDraft();
    go('/shop', 'replace');
  }
  return (
    <MannerProvider manner={manner}>
      <Place label={t('shop.setUp.title')} columns="left">
        <Column label={t('shop.setUp.title')}>
          <Head level={1} title={t('shop.setUp.title')} note={t('shop.setUp.note')} />
          <p className={`quiet ${css['lead']}`}>{t('shop.setUp.text')}</p>
          <StepList step={step} draft={draft} faults={faults} onStep={setStep} />
          <Foot>
            <p className="t1 dusty">{t('shop.caution')}</p>
          </Foot>
        </Column>
        <Column divided label={t(`shop.step.${step}`)}>
          <Head title={t(`shop.step.${step}`)} note={t(`shop.step.${step}.note`)} />
          <StepForm key={step} step={step} draft={draft} change={change} />
          <Refusal refusal={setUp.refusal} />
          <Foot>
            {next ? (
              <Button onPress={() => setStep(next)}>
                {t('shop.setUp.next', { step: t(`shop.step.${next}`) })}
              </Button>
            ) : null}
            <Button kind="go" busy={setUp.busy} why={fault?.says} onPress={() => void finish()}>
              {t('shop.setUp.done')}
            </Button>
            {fault ? (
              <LinkButton quiet onPress={() => setStep(fault.step)}>
                {t('shop.setUp.fault', { step: t(`shop.step.${fault.step}`), says: fault.says })}
              </LinkButton>
            ) : null}
          </Foot>
        </Column>
      </Place>
    </MannerProvider>
  );
}

/** The steps, each with a sentence of what is set; lit where something that was typed does not do. */
function StepList(props: {
  readonly step: Step;
  readonly draft: Draft;
  readonly faults: readonly SetUpFault[];
  readonly onStep: (step: Step) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { step, draft } = props;
  return (
    <div className={css['parts']}>
      <List label={t('shop.setUp.title')}>
        {STEPS.map((one) => {
          const wrong = props.faults.find((fault) => fault.step === one && !fault.open);
          return (
            <Item
              key={one}
              selected={one === step}
              lit={wrong !== undefined}
              onPress={() => props.onStep(one)}
            >
              <span className={css['mark']} data-form={markOf(one, step, draft)} />
              <span className={css['step']}>
                <b>{t(`shop.step.${one}`)}</b>
                <span className={`t1 cut ${wrong ? 'lamp' : 'quiet'}`}>
                  {wrong?.says ?? sentenceOf(one, draft, manner, t)}
                </span>
              </span>
            </Item>
          );
        })}
      </List>
    </div>
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
    case 'work':
      return <WorkStep {...rest} />;
    case 'bays':
      return <BaysStep {...rest} />;
    case 'hours':
      return <HoursStep {...rest} />;
    case 'price':
      return <PriceStep {...rest} />;
    case 'tax':
      return <TaxStep {...rest} />;
  }
}

function markOf(step: Step, current: Step, draft: Draft): string {
  if (step === current) return 'work';
  return isSaid(step, draft) ? 'done' : 'plan';
}
