import { type ReactNode, useState } from 'react';
import type { CardStage } from '#core/shared/views/card.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './card.module.css';

/** A note on the stage in hand, for whoever works on it next and for the desk. */
export function NoteForm(props: { readonly stage: CardStage; readonly onBack: () => void }): ReactNode {
  const t = useText();
  const note = useCommand('bookings.noteStage');
  const [text, setText] = useState('');
  async function save(): Promise<void> {
    const done = await note.run({ stageId: props.stage.id, note: text });
    if (done.ok) props.onBack();
  }
  return (
    <section className={css['form']} aria-label={t('card.note')}>
      <Head title={t('card.note')} note={t(`word.stage.${props.stage.kind}`)} />
      <TextField
        label={t('card.note')}
        value={text}
        onChange={setText}
        lines={4}
        maxLength={1000}
        autoFocus
      />
      <Refusal refusal={note.refusal} />
      <nav className={css['go']}>
        <Button
          kind="go"
          busy={note.busy}
          why={text.trim() === '' ? t('card.noteEmpty') : undefined}
          onPress={() => void save()}
        >
          {t('card.noteKeep')}
        </Button>
        <Button onPress={props.onBack}>{t('card.backToStage')}</Button>
      </nav>
    </section>
  );
}
