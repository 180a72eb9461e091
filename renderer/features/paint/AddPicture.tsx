import { type ReactNode, useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import { isLarger, PICTURE_MOST_MB } from '#core/shared/fileSizes.ts';
import type { JobId } from '#core/shared/ids.ts';
import { type PictureConsent, READING_PHASES, type ReadingPhase } from '#core/shared/views/paint.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { base64Of } from '../../bridge/fileText.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { Check, Segmented } from '../../ui/Choice.tsx';
import { ChooseFile } from '../../ui/ChooseFile.tsx';
import { CalmNote, Refusal } from '../../ui/States.tsx';
import css from './paint.module.css';

const TOO_LARGE = {
  code: 'PICTURE_TOO_LARGE',
  data: { mostMb: PICTURE_MOST_MB },
} as const satisfies PlainError;

/** A way to add pictures, within what the customer agreed to when the car was taken in. */
export function AddPicture(props: {
  readonly jobId: JobId;
  readonly panel: PanelId | null;
  readonly agreed: PictureConsent;
}): ReactNode {
  const t = useText();
  const add = useCommand('paint.addPicture');
  const [tooLarge, setTooLarge] = useState(false);
  const [shown, setShown] = useState(false);
  const [phase, setPhase] = useState<ReadingPhase>('before');
  const { agreed } = props;
  if (agreed === 'notAsked')
    return (
      <CalmNote text={t('paint.pictureAgreed.notAsked')}>
        <LinkTo to={`/jobs/${props.jobId}/arrive`}>{t('jobs.step.arrive')}</LinkTo>
      </CalmNote>
    );
  if (agreed === 'none') return <CalmNote text={t('paint.pictureAgreed.none')} />;
  async function take(files: readonly File[]): Promise<void> {
    const consent = shown && agreed === 'publish' ? 'publish' : 'record';
    for (const file of files) {
      const large = isLarger(file.size, PICTURE_MOST_MB);
      setTooLarge(large);
      if (large) return;
      const said = { jobId: props.jobId, panel: props.panel, phase, consent } as const;
      const done = await add.run({ ...said, base64: await base64Of(file) });
      if (!done.ok) return;
    }
  }
  return (
    <div className={css['addPicture']}>
      <Segmented<ReadingPhase>
        label={t('paint.picturePhase')}
        options={READING_PHASES.map((value) => ({ value, label: t(`paint.picture.${value}`) }))}
        value={phase}
        onChange={setPhase}
      />
      <ChooseFile
        label={t('paint.addPicture')}
        accept="image/jpeg,image/png,image/webp"
        many
        busy={add.busy}
        onChoose={take}
      />
      {agreed === 'publish' ? (
        <Check label={t('paint.pictureConsent.publish')} value={shown} onChange={setShown} />
      ) : (
        <span className="t1 quiet">{t('paint.pictureAgreed.record')}</span>
      )}
      <Refusal refusal={tooLarge ? TOO_LARGE : add.refusal} />
    </div>
  );
}
