import type { ReactNode } from 'react';
import type { PictureView } from '#core/shared/views/paint.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Wipe } from '../../ui/TapeLine.tsx';
import css from './paint.module.css';
import { usePicture } from './usePicture.ts';

/** The newest pictures before and after work, where there are both. */
export function pairOf(
  pictures: readonly PictureView[],
): { readonly before: PictureView; readonly after: PictureView } | null {
  const before = pictures.filter((p) => p.phase === 'before').at(-1);
  const after = pictures.filter((p) => p.phase === 'after').at(-1);
  return before && after ? { before, after } : null;
}

/** Before and after in the same place, either side of the tape. */
export function BeforeAfter(props: { readonly before: PictureView; readonly after: PictureView }): ReactNode {
  const t = useText();
  const before = usePicture(props.before.id);
  const after = usePicture(props.after.id);
  if (!before || !after) return null;
  return (
    <div className={css['compare']}>
      <Wipe
        label={t('paint.compare')}
        left={<img src={before} alt={t('paint.picture.before')} />}
        right={<img src={after} alt={t('paint.picture.after')} />}
      />
      <div className={css['sides']} aria-hidden="true">
        <span>{t('paint.picture.before')}</span>
        <span>{t('paint.picture.after')}</span>
      </div>
    </div>
  );
}

/** One picture with when it was taken of the work, who may see it, and a way to take it out. */
export function Picture(props: { readonly picture: PictureView; readonly where?: string }): ReactNode {
  const t = useText();
  const remove = useCommand('paint.removePicture');
  const { id, consent, phase } = props.picture;
  const url = usePicture(id);
  const said = [props.where, t(`paint.picture.${phase}`), t(`paint.pictureConsent.${consent}`)];
  return (
    <figure className={css['picture']}>
      {url ? <img src={url} alt={said.filter(Boolean).join(', ')} /> : <div className={css['noPicture']} />}
      <figcaption className="t1 quiet">{said.filter(Boolean).join(', ')}</figcaption>
      <LinkButton quiet onPress={() => void remove.run({ pictureId: id })}>
        {t('paint.remove')}
      </LinkButton>
    </figure>
  );
}
