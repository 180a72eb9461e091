import type { ReactNode } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import type { PictureView } from '#core/shared/views/paint.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkTo } from '../../ui/Button.tsx';
import { AddPicture } from './AddPicture.tsx';
import { BeforeAfter, Picture, pairOf } from './BeforeAfter.tsx';
import css from './paint.module.css';

/** Pictures of a panel with what the customer agreed to, and a way to add one. */
export function PanelPictures(props: {
  readonly jobId: JobId;
  readonly panel: PanelId;
  readonly pictures: readonly PictureView[];
}): ReactNode {
  const t = useText();
  const agreed = useQuery('paint.pictures', { jobId: props.jobId }).data?.agreed;
  const pair = pairOf(props.pictures);
  return (
    <div className={css['pictures']}>
      {props.pictures.length === 0 ? <p className="quiet">{t('paint.noPictures')}</p> : null}
      {pair ? <BeforeAfter key={`${pair.before.id} ${pair.after.id}`} {...pair} /> : null}
      {props.pictures.map((p) => (
        <Picture key={p.id} picture={p} />
      ))}
      {agreed ? <AddPicture jobId={props.jobId} panel={props.panel} agreed={agreed} /> : null}
      <LinkTo quiet to={`/jobs/${props.jobId}/pictures`}>
        {t('paint.allPictures')}
      </LinkTo>
    </div>
  );
}
