import { type ReactNode, useState } from 'react';
import type { MachineStep, StepRole } from '#core/shared/machineStep.ts';
import type { StepView } from '#core/shared/views/paint.ts';
import { useCommand } from '../../bridge/commands.ts';
import { type Edited, useEdited } from '../../bridge/edited.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Elsewhere } from '../../ui/Elsewhere.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './paint.module.css';
import { STEP_WORDS, StepFields, stepValue } from './StepFields.tsx';

/** Keeps a step as typed, or fits its film; what came of it is said until something is typed again. */
function useStep(edited: Edited<MachineStep>, role: StepRole) {
  const t = useText();
  const set = useCommand('paint.setStep');
  const fit = useCommand('paint.refitStep');
  const [said, setSaid] = useState<string | null>(null);
  async function keep(): Promise<void> {
    fit.clear();
    const done = await set.run({ ...edited.draft, revision: edited.revision });
    if (!done.ok) return;
    edited.saved();
    setSaid(t('steps.kept'));
  }
  async function fitToSpots(): Promise<void> {
    set.clear();
    setSaid(null);
    const done = await fit.run({ role, revision: edited.revision });
    if (done.ok) setSaid(t('steps.fitted', { n: done.value.n }));
  }
  function put(part: Partial<MachineStep>): void {
    setSaid(null);
    edited.put(part);
  }
  const refusal = set.refusal ?? fit.refusal;
  return { keep, fitToSpots, put, said, refusal, keeping: set.busy, fitting: fit.busy };
}

/** A machine step changed by hand, or its film fitted to the shop's own test spots. */
export function StepForm(props: { readonly step: StepView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { tenthUmPerPass: _pass, errorPerPass: _error, own: _own, spots, revision, ...stored } = props.step;
  const edited = useEdited<MachineStep>(stored, revision);
  const step = useStep(edited, stored.role);
  return (
    <section className={css['step']} aria-label={t(`estimate.step.${stored.role}`)}>
      <Head level={2} title={t(`estimate.step.${stored.role}`)} note={t('steps.spots', { n: spots })} />
      <StepFields step={edited.draft} put={step.put} />
      <Elsewhere
        edited={edited}
        stored={stored}
        label={(field) => t(STEP_WORDS[field])}
        value={(field) => stepValue(stored, field, t, manner)}
      />
      <Refusal refusal={step.refusal} />
      <Row>
        <Button
          kind="go"
          busy={step.keeping}
          why={edited.clashes.length > 0 ? t('ui.elsewhere.choose') : undefined}
          onPress={() => void step.keep()}
        >
          {t('steps.keep')}
        </Button>
        <Button
          busy={step.fitting}
          why={edited.typed ? t('steps.keepFirst') : undefined}
          onPress={() => void step.fitToSpots()}
        >
          {t('steps.fit')}
        </Button>
        {step.said ? (
          <span className="t1 quiet" role="status">
            {step.said}
          </span>
        ) : null}
      </Row>
    </section>
  );
}
