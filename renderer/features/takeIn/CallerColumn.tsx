import type { ReactNode } from 'react';
import { MOST_LETTERS } from '#core/shared/letters.ts';
import { BODY_STYLES, type BodyStyle } from '#core/shared/vocabulary.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { vinSentence } from '../../bridge/vinSentence.ts';
import { TextField } from '../../ui/Field.tsx';
import { FlatCar } from '../../ui/flatcar/FlatCar.tsx';
import { Foot, Head } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import { AlmostNote } from './AlmostNote.tsx';
import { RenameNote } from './RenameNote.tsx';
import css from './takeIn.module.css';
import type { TakeIn } from './useTakeIn.ts';
import { VinNote } from './VinNote.tsx';

/** Who, telephone, plate, body, car, vehicle number: kept as they are typed. */
export function CallerColumn(props: {
  readonly takeIn: TakeIn;
  /** How far the call is: what may still be changed here is said below the fields. */
  readonly stage: 'begun' | 'opened' | 'booked';
  /** It is the next caller, whose name was typed over the one before. */
  readonly onOther: () => void;
  /** What stands above the fields. */
  readonly children: ReactNode;
}): ReactNode {
  const t = useText();
  const { caller, ids, change, save, saving, refusal } = props.takeIn;
  const known = ids.customer !== null;
  const vin = useQuery('people.checkVin', { vin: caller.vin }, { keep: true, when: caller.vin !== '' });
  const sentence = caller.vin === '' ? undefined : vinSentence(vin.data, t);
  const done = (): void => void save();
  /* A first write waits for a telephone or a plate: until then it may still be somebody known. */
  const nameDone = (): void => void (known ? save() : undefined);
  return (
    <>
      <Head title={t('takeIn.title')} note={saving ? t('takeIn.saving') : t('takeIn.asYouType')} />
      {props.children}
      <div className={css['two']}>
        <div className={css['wide']}>
          <TextField
            label={t('takeIn.who')}
            hint={known ? t('takeIn.isKept') : caller.name ? t('takeIn.newSoFar') : undefined}
            value={caller.name}
            maxLength={MOST_LETTERS.name}
            onChange={(name) => change({ name })}
            onDone={nameDone}
            autoFocus
          />
          <AlmostNote takeIn={props.takeIn} />
          <RenameNote takeIn={props.takeIn} onOther={props.onOther} />
        </div>
        <TextField
          label={t('takeIn.phone')}
          kind="tel"
          value={caller.phone}
          maxLength={MOST_LETTERS.phone}
          onChange={(phone) => change({ phone })}
          onDone={(phone) => (phone === '' ? undefined : done())}
        />
        <TextField
          label={t('takeIn.plate')}
          value={caller.plate}
          maxLength={MOST_LETTERS.plate}
          onChange={(plate) => change({ plate })}
          onDone={(plate) => (plate === '' ? undefined : done())}
        />
        <BodyChoice
          value={caller.body}
          onChange={(body) => {
            change({ body });
            if (known) void save();
          }}
        />
        <div className={css['wide']}>
          <TextField
            label={t('takeIn.makeModel')}
            value={caller.makeModel}
            maxLength={MOST_LETTERS.makeModel}
            onChange={(makeModel) => change({ makeModel })}
            onDone={nameDone}
          />
        </div>
        <TextField
          label={t('takeIn.colour')}
          value={caller.colour}
          maxLength={MOST_LETTERS.colour}
          onChange={(colour) => change({ colour })}
          onDone={nameDone}
        />
        <YearField value={caller.year} onChange={(year) => change({ year })} onDone={nameDone} />
        <div className={css['wide']}>
          <TextField
            label={t('takeIn.vin')}
            hint={t('takeIn.vinHint')}
            value={caller.vin}
            maxLength={MOST_LETTERS.vin}
            onChange={(v) => change({ vin: v })}
            onDone={nameDone}
            error={sentence ? <VinNote sentence={sentence} t={t} /> : undefined}
          />
        </div>
      </div>
      <Refusal refusal={refusal} />
      <Foot>
        <span className="t1 dusty">{t(`takeIn.foot.${props.stage}`)}</span>
      </Foot>
    </>
  );
}

/** Which body it is, by its drawing. */
function BodyChoice(props: {
  readonly value: BodyStyle;
  readonly onChange: (body: BodyStyle) => void;
}): ReactNode {
  const t = useText();
  return (
    <fieldset className={css['bodies']}>
      <legend className="unseen">{t('takeIn.body')}</legend>
      {BODY_STYLES.map((body) => (
        <label key={body} className={css['body']} data-on={body === props.value}>
          <input
            type="radio"
            name="body"
            className="unseen"
            checked={body === props.value}
            onChange={() => props.onChange(body)}
          />
          <FlatCar size="mini" body={body} label={t(`word.body.${body}`)} />
          <span>{t(`word.body.${body}`)}</span>
        </label>
      ))}
    </fieldset>
  );
}

/** A year is four digits without a group mark, so it is not a figure with separators. */
function YearField(props: {
  readonly value: number | null;
  readonly onChange: (year: number | null) => void;
  readonly onDone: () => void;
}): ReactNode {
  const t = useText();
  return (
    <TextField
      label={t('takeIn.year')}
      value={props.value === null ? '' : String(props.value)}
      maxLength={4}
      onDone={props.onDone}
      onChange={(text) => {
        const digits = text.replace(/\D/g, '');
        props.onChange(digits === '' ? null : Number(digits));
      }}
    />
  );
}
