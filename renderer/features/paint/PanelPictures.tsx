import { type ReactNode, useEffect, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import type { PictureView } from '#core/shared/views/paint.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Check } from '../../ui/Choice.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './paint.module.css';

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
  const consent = shown ? 'publish' : 'record';

  async function take(files: FileList | null): Promise<void> {
    const file = files?.[0];
    if (!file) return;
    await add.run({ jobId: props.jobId, panel: props.panel, consent, base64: await base64Of(file) });
  }
  return (
    <div className={css['pictures']}>
      {props.pictures.length === 0 ? <p className="quiet">{t('paint.noPictures')}</p> : null}
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
      <Check label={t('paint.pictureConsent.publish')} value={shown} onChange={setShown} />
      <Refusal refusal={add.refusal} />
    </div>
  );
}

function Picture(props: { readonly picture: PictureView }): ReactNode {
  const t = useText();
  const { make } = useDocument('paint.picture');
  const remove = useCommand('paint.removePicture');
  const [url, setUrl] = useState<string | null>(null);
  const { id, consent } = props.picture;
  useEffect(() => {
    let made: string | null = null;
    let gone = false;
    void make({ pictureId: id }).then((file) => {
      if (!file || gone) return;
      made = URL.createObjectURL(new Blob([Uint8Array.from(file.bytes)], { type: file.mime }));
      setUrl(made);
    });
    return () => {
      gone = true;
      if (made) URL.revokeObjectURL(made);
    };
  }, [id, make]);
  return (
    <figure className={css['picture']}>
      {url ? <img src={url} alt={t(`paint.pictureConsent.${consent}`)} /> : null}
      <figcaption className="t1 quiet">{t(`paint.pictureConsent.${consent}`)}</figcaption>
      <LinkButton quiet onPress={() => void remove.run({ pictureId: id })}>
        {t('paint.remove')}
      </LinkButton>
    </figure>
  );
}
