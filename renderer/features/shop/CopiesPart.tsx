import { type ReactNode, useState } from 'react';
import { count } from '#core/shared/text/format.ts';
import { dayText, exact, when } from '#core/shared/text/when.ts';
import type { BackupView } from '#core/shared/views/host.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Confirm } from '../../ui/Acts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Row } from '../../ui/Layout.tsx';
import { Item, List } from '../../ui/List.tsx';
import { CalmNote, Refusal, Waiting } from '../../ui/States.tsx';
import { copyDays } from './copyDays.ts';
import css from './shop.module.css';
import { keepWentBack, putAwayWentBack, wentBack } from './wentBack.ts';

const DAYS = 14;
const BYTES_PER_MB = 1_000_000;

/** Copies of the one file: how safe it is, a copy now, and going back to one. */
export function CopiesPart(): ReactNode {
  const t = useText();
  const manner = useManner();
  const off = useMay('desk') ? undefined : t('shop.onlyDesk');
  const copies = useQuery('host.backups', {}, { when: off === undefined });
  const copy = useCommand('host.backupNow');
  const [lost, setLost] = useState(0);
  if (off) return <p className="quiet">{off}</p>;
  if (!copies.data) return copies.error ? <Refusal refusal={copies.error} /> : <Waiting />;
  const [newest] = copies.data;
  async function now(): Promise<void> {
    const done = await copy.run({});
    if (!done.ok) return;
    setLost(done.value.missingPictures);
    copies.ask();
  }
  return (
    <div className={css['form']}>
      <WentBackNote />
      <p role="status">
        <b>
          {newest
            ? t('shop.copies.safe', { at: when(manner, newest.atMs, Date.now()) })
            : t('shop.copies.none')}
        </b>{' '}
        <span className="quiet">{t('shop.copies.how')}</span>
      </p>
      <DayStrip copies={copies.data} />
      <Row>
        <Button busy={copy.busy} onPress={() => void now()}>
          {t('shop.copies.now')}
        </Button>
      </Row>
      <Refusal refusal={copy.refusal} />
      {lost > 0 ? <CalmNote text={t('shop.copies.lost', { pictures: lost })} /> : null}
      <CopyList copies={copies.data} />
    </div>
  );
}

/** That the file was changed for a copy, said once the window has begun anew with it. */
function WentBackNote(): ReactNode {
  const t = useText();
  const manner = useManner();
  const [went, setWent] = useState(wentBack);
  if (!went) return null;
  const putAway = (): void => {
    putAwayWentBack();
    setWent(null);
  };
  return (
    <CalmNote
      title={t('shop.copies.went', { at: exact(manner, went.copyMs) })}
      text={t('shop.copies.wentText', { folder: went.asideDir, pictures: went.missingPictures })}
    >
      <LinkButton onPress={putAway}>{t('shop.copies.wentSeen')}</LinkButton>
    </CalmNote>
  );
}

function DayStrip(props: { readonly copies: readonly BackupView[] }): ReactNode {
  const t = useText();
  const manner = useManner();
  const days = copyDays(props.copies, Date.now(), manner.zone, DAYS);
  const missed = days.filter((d) => d.state === 'missed');
  const said = missed.map((d) => dayText(manner, d.day)).join(', ');
  const ends = [days[0], days.at(-1)].map((d) => (d ? dayText(manner, d.day) : ''));
  return (
    <div>
      <div className={css['days']} aria-hidden="true">
        {days.map((d) => (
          <i
            key={d.day}
            data-form={d.state === 'copied' ? 'done' : d.state === 'missed' ? 'late' : 'ghost'}
            title={dayText(manner, d.day)}
          />
        ))}
      </div>
      <p className={css['dayEnds']}>
        <span className="t1 quiet">{ends[0]}</span>
        {missed.length === 0 ? null : (
          <span className="t1 lamp">{t('shop.copies.missed', { days: said })}</span>
        )}
        <span className="t1 quiet">{ends[1]}</span>
      </p>
    </div>
  );
}

function CopyList(props: { readonly copies: readonly BackupView[] }): ReactNode {
  const t = useText();
  const manner = useManner();
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const [chosen, setChosen] = useState<BackupView | null>(null);
  const at = (copy: BackupView): string => when(manner, copy.atMs, Date.now());
  return (
    <>
      {chosen ? <GoBack copy={chosen} at={at(chosen)} onNo={() => setChosen(null)} /> : null}
      <List label={t('shop.part.copies')}>
        {props.copies.map((copy) => (
          <Item key={copy.fileName}>
            <span className={css['awayRow']}>
              <span title={exact(manner, copy.atMs)}>{at(copy)}</span>
              <span className="t1 quiet">
                {t(`shop.copies.reason.${copy.reason}`)}, {count(manner, copy.bytes / BYTES_PER_MB, 1)} MB
              </span>
              <LinkButton
                quiet
                why={off}
                label={t('shop.copies.backTo', { at: at(copy) })}
                onPress={() => setChosen(copy)}
              >
                {t('shop.copies.back')}
              </LinkButton>
            </span>
          </Item>
        ))}
      </List>
    </>
  );
}

/** What happens to the present file is said before anything does. */
function GoBack(props: {
  readonly copy: BackupView;
  readonly at: string;
  readonly onNo: () => void;
}): ReactNode {
  const t = useText();
  const restore = useCommand('host.restore');
  const { fileName, atMs: copyMs } = props.copy;
  async function yes(): Promise<void> {
    const done = await restore.run({ fileName });
    if (!done.ok) return;
    keepWentBack({ ...done.value, copyMs });
    // Everything this window knows was of the other file.
    location.reload();
  }
  return (
    <>
      <Confirm
        title={t('shop.copies.ask', { at: props.at })}
        text={t('shop.copies.askText')}
        yes={t('shop.copies.yes')}
        no={t('shop.copies.no')}
        busy={restore.busy}
        onYes={() => void yes()}
        onNo={props.onNo}
      />
      <Refusal refusal={restore.refusal} />
    </>
  );
}
