import { type ReactNode, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import {
  CONDITIONS,
  type EstimateView,
  PROTECTIONS,
  type Protection,
  type StatedCondition,
  WISHES,
  type Wish,
} from '#core/shared/views/estimate.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { Check, Segmented } from '../../ui/Choice.tsx';
import { Head, Row, Stack } from '../../ui/Layout.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';

/** How far to go, and on what the estimate rests: as told, or as inspected. Each press makes a new version. */
export function AskForm(props: { readonly jobId: JobId; readonly newest: EstimateView | null }): ReactNode {
  const t = useText();
  const { jobId, newest } = props;
  const [wish, setWish] = useState<Wish>(newest?.wish ?? 'full');
  const [condition, setCondition] = useState<StatedCondition>(newest?.asked.condition ?? 'unknown');
  const [interior, setInterior] = useState(newest?.asked.interior ?? false);
  const [protection, setProtection] = useState<Protection>(newest?.asked.protection ?? 'sealant');
  const look = useQuery('paint.inspectionOf', { jobId });
  const told = useCommand('estimate.provisional');
  const seen = useCommand('estimate.fromInspection');
  const inspected = look.data !== null && look.data !== undefined;
  return (
    <Stack gap={2}>
      <Head title={t('estimate.ask')} level={2} />
      <Select<Wish>
        label={t('estimate.wish')}
        options={WISHES.map((value) => ({ value, label: t(`word.wish.${value}`) }))}
        value={wish}
        onChange={setWish}
      />
      {inspected ? null : (
        <Select<StatedCondition>
          label={t('estimate.condition')}
          options={CONDITIONS.map((value) => ({ value, label: t(`takeIn.condition.${value}`) }))}
          value={condition}
          onChange={setCondition}
        />
      )}
      <Segmented<Protection>
        label={t('estimate.protection')}
        options={PROTECTIONS.map((value) => ({ value, label: t(`estimate.protection.${value}`) }))}
        value={protection}
        onChange={setProtection}
      />
      <Check label={t('estimate.interior')} value={interior} onChange={setInterior} />
      <Row>
        {inspected ? (
          <Button
            kind="go"
            onPress={() => void seen.run({ jobId, wish, interior, protection })}
            busy={seen.busy}
          >
            {t('estimate.fromInspection')}
          </Button>
        ) : (
          <Button
            kind="go"
            onPress={() => void told.run({ jobId, wish, condition, interior, protection })}
            busy={told.busy}
          >
            {t('estimate.makeProvisional')}
          </Button>
        )}
        <LinkTo to={`/jobs/${jobId}/inspection`}>{t('paint.toPaint')}</LinkTo>
        {newest ? <LinkTo to={`/jobs/${jobId}/quote`}>{t('estimate.toQuote')}</LinkTo> : null}
      </Row>
      <Refusal refusal={told.refusal ?? seen.refusal} />
    </Stack>
  );
}
