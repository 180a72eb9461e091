import { type ReactNode, useState } from 'react';
import type { SentFor } from '#core/shared/catalogue.ts';
import type { PlainError } from '#core/shared/errors.ts';
import type { OverrideRule } from '#core/shared/views/bookings.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Refusal } from '../../ui/States.tsx';

export type Aside = NonNullable<SentFor<'bookings.startStage'>['setAside']>;

/**
 * Why the work may not go on; a rule of the trade may be set aside under the name of whoever is signed in. Each rule is
 * told by itself: nobody approves what they have not read.
 */
export function AskAside(props: {
  readonly refusal: PlainError | null | undefined;
  readonly onAside: (aside: Aside) => void;
}): ReactNode {
  const t = useText();
  const [reason, setReason] = useState('');
  const [told, setTold] = useState<readonly OverrideRule[]>([]);
  const rule = ruleOf(props.refusal);
  function approve(asked: OverrideRule): void {
    const rules = [...told.filter((r) => r !== asked), asked];
    setTold(rules);
    props.onAside({ reason, rules });
  }
  return (
    <Refusal refusal={props.refusal}>
      {rule ? (
        <>
          <TextField label={t('card.setAsideWhy')} value={reason} onChange={setReason} maxLength={400} />
          <Button
            why={reason.trim().length < 3 ? t('card.setAsideWhy') : undefined}
            onPress={() => approve(rule)}
          >
            {t('card.setAside')}
          </Button>
        </>
      ) : null}
    </Refusal>
  );
}

/** The rule that a refusal is about, if it is one that can be set aside. */
function ruleOf(refusal: PlainError | null | undefined): OverrideRule | null {
  if (refusal?.code === 'STAGE_ORDER') return refusal.data.rule;
  return refusal?.code === 'CURE_RUNS' ? 'cureUntouched' : null;
}
