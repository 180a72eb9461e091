import { type ReactNode, useState } from 'react';
import type { InspectionView } from '#core/shared/views/paint.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Refusal } from '../../ui/States.tsx';

/** Readings that the estimate does not know yet, and the way to make it know them. */
export function EstimateAgain(props: { readonly view: InspectionView }): ReactNode {
  const t = useText();
  const again = useCommand('estimate.again');
  const [same, setSame] = useState<number | null>(null);
  const { jobId, readSince } = props.view;
  const versions = useQuery('estimate.ofJob', { jobId }, { when: readSince > 0 }).data;
  if (readSince === 0) return null;
  if (same === readSince) return <p className="quiet">{t('paint.sameAgain')}</p>;
  async function run(): Promise<void> {
    const before = versions?.[0]?.version;
    const made = await again.run({ jobId });
    if (made.ok && made.value.version === before) setSame(readSince);
  }
  return (
    <div className="lit">
      <p>
        {t('paint.readSince', { n: readSince })}{' '}
        <LinkButton onPress={() => void run()}>{t('paint.estimateAgain')}</LinkButton>
      </p>
      <Refusal refusal={again.refusal} />
    </div>
  );
}
