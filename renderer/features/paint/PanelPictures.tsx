import { type ReactNode, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import type { PictureView, ReadingPhase } from '#core/shared/views/paint.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Check, Segmented } from '../../ui/Choice.tsx';
import { Refusal } from '../../ui/States.tsx';
import { Wipe } from '../../ui/TapeLine.tsx';
import css from './paint.module.css';
import { usePicture } from './usePicture.ts';

async function base64Of(file: File): Promise<string> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  let text = '';
  for (let i = 0; i < bytes.length; i += 0x8000)
    text += String.fromCharCode(...bytes.subarray(i, i + 0x8000));
  return btoa(text);
}

/** Pictures of a panel with what the owner agreed to, and a way to add one. */
export function PanelPictures(props: {
  readonly jobId: JobId;
  readonly panel: PanelId;
  readonly pictures: readonly PictureView[];
}): ReactNode {
  const t = useText();
  const add = useCommand('paint.addPicture');
  const [shown, setShown] = useState(false);
  const [phase, setPhase] = useState<ReadingPhase>('before');
  const consent = shown ? 'publish' : 'record';
  const before = props.pictures.filter((p) => p.phase === 'before').at(-1);
  const after = props.pictures.filter((p) => p.phase === 'after').at(-1);

  async function take(files: FileList | null): Promise<void> {
    const file = files?.[0];
    if (!file) return;
    const base64 = await base64Of(file);
    await add.run({ jobId: props.jobId, panel: props.panel, phase, consent, base64 });
  }
  return (
    <div className={css['pictures']}>
      {props.pictures.length === 0 ? <p className="quiet">{t('paint.noPictures')}</p> : null}
      {before && after ? (
        <BeforeAfter key={`${before.id} ${after.id}`} before={before} after={after} />
      ) : null}
      {props.pictures.map((p) => (
        <Picture key={p.id} picture={p} />
      ))}
      <label className={css['file']}>
        {t('paint.addPicture')}
        <input
          type="file"
          accept="image/jpeg,image/png,image/webp"
          onChange={(e) => void take(e.currentTarget.files)}
        />
      </label>
      <Segmented<ReadingPhase>
        bare
        label={t('paint.phase')}
        options={(['before', 'after'] as const).map((value) => ({ value, label: t(`paint.${value}`) }))}
        value={phase}
        onChange={setPhase}
      />
      <Check label={t('paint.pictureConsent.publish')} value={shown} onChange={setShown} />
      <Refusal refusal={add.refusal} />
    </div>
  );
}

function Picture(props: { readonly picture: PictureView }): ReactNode {
  const t = useText();
  const remove = useCommand('paint.removePicture');
  const { id, consent, phase } = props.picture;
  const url = usePicture(id);
  return (
    <figure className={css['picture']}>
      {url ? <img src={url} alt={t(`paint.${phase}`)} /> : null}
      <figcaption className="t1 quiet">
        {t(`paint.${phase}`)}, {t(`paint.pictureConsent.${consent}`)}
      </figcaption>
      <LinkButton quiet onPress={() => void remove.run({ pictureId: id })}>
        {t('paint.remove')}
      </LinkButton>
    </figure>
  );
}

/** Before and after in the same place, either side of the tape. */
function BeforeAfter(props: { readonly before: PictureView; readonly after: PictureView }): ReactNode {
  const t = useText();
  const before = usePicture(props.before.id);
  const after = usePicture(props.after.id);
  if (!before || !after) return null;
  return (
    <div className={css['compare']}>
      <Wipe
        label={t('paint.compare')}
        left={<img src={before} alt={t('paint.before')} />}
        right={<img src={after} alt={t('paint.after')} />}
      />
    </div>
  );
}
