import { type ReactNode, useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import { GAUGE_TEXT_MOST } from '#core/shared/letters.ts';
import { film } from '#core/shared/text/format.ts';
import { panelName } from '#core/shared/text/sayError.ts';
import type { InspectionView, ReadingPhase } from '#core/shared/views/paint.ts';
import { useCommand } from '../../bridge/commands.ts';
import { textOf } from '../../bridge/fileText.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { usePhases } from '../../bridge/usePhases.ts';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { ChooseFile } from '../../ui/ChooseFile.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './paint.module.css';

/** A gauge's own text, pasted or from its file: taken in whole or not at all. */
export function PasteForm(props: {
  readonly view: InspectionView;
  readonly phase: ReadingPhase;
  readonly onPhase: (phase: ReadingPhase) => void;
  readonly onClose: () => void;
}): ReactNode {
  const t = useText();
  const phases = usePhases();
  const like = useExample(props.view.body);
  const { phase } = props;
  const [text, setText] = useState('');
  const [added, setAdded] = useState<number | null>(null);
  const paste = useCommand('paint.pasteReadings');

  function put(next: string): void {
    setText(next);
    setAdded(null);
    paste.clear();
  }
  async function take(answer: Answer | null): Promise<void> {
    const how = { sure: answer !== null, ...answer };
    const done = await paste.run({ jobId: props.view.jobId, text, phase, ...how });
    if (!done.ok) return;
    setText('');
    setAdded(done.value.added);
  }
  return (
    <section className={css['form']} aria-label={t('paint.paste')}>
      <TextField
        label={t('paint.paste')}
        hint={t('paint.pasteHint')}
        placeholder={like}
        lines={4}
        value={text}
        maxLength={GAUGE_TEXT_MOST}
        onChange={put}
        autoFocus
      />
      <div className={css['entry']}>
        <GaugeFile onText={put} />
        <Segmented<ReadingPhase> bare {...phases} value={phase} onChange={props.onPhase} />
        <Button onPress={() => void take(null)} busy={paste.busy}>
          {t('paint.takeIn')}
        </Button>
        <LinkButton onPress={props.onClose}>{t('paint.close')}</LinkButton>
        {added === null ? null : <span className="quiet">{t('paint.pasted', { n: added })}</span>}
      </div>
      <Asked key={text} refusal={paste.refusal} onAnswer={(answer) => void take(answer)} />
    </section>
  );
}

/** That the figures are of one unit, or that those far off are right as well, in the unit that was named before. */
type Answer = { readonly unit?: 'um' | 'mil'; readonly right?: boolean };

/** What is in doubt about the text, and the answers to it. */
function Asked(props: {
  readonly refusal: PlainError | null;
  readonly onAnswer: (answer: Answer) => void;
}): ReactNode {
  const t = useText();
  const [named, setNamed] = useState<Answer>({});
  const code = props.refusal?.code;
  function name(unit: 'um' | 'mil'): void {
    setNamed({ unit });
    props.onAnswer({ unit });
  }
  return (
    <Refusal refusal={props.refusal}>
      {code === 'FILM_UNIT_DOUBTFUL'
        ? (['um', 'mil'] as const).map((unit) => (
            <LinkButton key={unit} onPress={() => name(unit)}>
              {t('paint.asTyped', { unit })}
            </LinkButton>
          ))
        : null}
      {code === 'FILM_FAR_OFF' ? (
        <LinkButton onPress={() => props.onAnswer({ ...named, right: true })}>
          {t('paint.rightAsTyped')}
        </LinkButton>
      ) : null}
    </Refusal>
  );
}

/** Two rows as a paste may look, in the shop's unit. */
function useExample(body: InspectionView['body']): string {
  const t = useText();
  const manner = useManner();
  return t('paint.pasteLike', {
    bonnet: panelName(manner.locale, 'bo', body),
    roof: panelName(manner.locale, 'ro', body),
    a: film(manner, 1060).value,
    b: film(manner, 1120).value,
  });
}

/** The gauge's file, read into the field so that it can be looked at before it is taken in. */
function GaugeFile(props: { readonly onText: (text: string) => void }): ReactNode {
  const t = useText();
  return (
    <ChooseFile
      label={t('paint.gaugeFile')}
      accept=".csv,.txt,.tsv,text/csv,text/plain"
      onChoose={async ([file]) => {
        if (file) props.onText(await textOf(file));
      }}
    />
  );
}
