import { type ReactNode, useState } from 'react';
import { PAPER_LANGUAGES, type PaperLanguage } from '#core/shared/languages.ts';
import { MOST_LETTERS } from '#core/shared/letters.ts';
import type { CustomerView } from '#core/shared/views/people.ts';
import { useCommand } from '../../bridge/commands.ts';
import { type Edited, useEdited } from '../../bridge/edited.ts';
import { type Say, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { Elsewhere } from '../../ui/Elsewhere.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import { CustomerData } from './CustomerData.tsx';
import css from './people.module.css';

type Draft = Pick<
  CustomerView,
  'kind' | 'name' | 'phone' | 'email' | 'address' | 'taxNumber' | 'termsDays' | 'language' | 'note'
>;
type Fields = Pick<Edited<Draft>, 'draft' | 'put'>;

/** What is known of a customer, to correct. */
export function CustomerForm(props: { readonly customer: CustomerView }): ReactNode {
  const t = useText();
  const { id: customerId, revision, ...known } = props.customer;
  const { kind, name, phone, email, address, taxNumber, termsDays, language, note } = known;
  const stored: Draft = { kind, name, phone, email, address, taxNumber, termsDays, language, note };
  const edited = useEdited(stored, revision);
  const { draft, put, clashes } = edited;
  const [saved, setSaved] = useState(false);
  const change = useCommand('people.changeCustomer');
  async function save(): Promise<void> {
    const done = await change.run({ customerId, revision: edited.revision, ...draft });
    if (!done.ok) return;
    edited.saved();
    setSaved(true);
  }
  function type(part: Partial<Draft>): void {
    setSaved(false);
    put(part);
  }
  return (
    <Stack gap={1}>
      <Reached draft={draft} put={type} />
      <Billed draft={draft} put={type} />
      <TextField
        lines={2}
        label={t('people.note')}
        value={draft.note}
        maxLength={MOST_LETTERS.note}
        onChange={(v) => type({ note: v })}
      />
      <Elsewhere
        edited={edited}
        stored={stored}
        label={(key) => t(`people.${key}`)}
        value={(key) => storedText(stored, key, t)}
      />
      <Refusal refusal={change.refusal} />
      <Row>
        <Button
          kind="go"
          busy={change.busy}
          why={clashes.length > 0 ? t('ui.elsewhere.choose') : undefined}
          onPress={() => void save()}
        >
          {t('people.save')}
        </Button>
        {saved ? (
          <span className="t1 quiet" role="status">
            {t('people.saved')}
          </span>
        ) : null}
      </Row>
      <CustomerData customer={props.customer} />
    </Stack>
  );
}

/** The words of what is stored, beside what was typed over it. */
function storedText(stored: Draft, key: keyof Draft, t: Say): string {
  if (key === 'kind') return t(`people.kind.${stored.kind}`);
  return key === 'language' ? languageName(stored.language || SHOPS, t) : String(stored[key]);
}

/** The choice that leaves the language to the shop. */
const SHOPS = 'shop';

function languageName(language: PaperLanguage | typeof SHOPS, t: Say): string {
  return language === SHOPS ? t('people.language.shop') : t(`setting.choice.${language}`);
}

function Reached({ draft, put }: Fields): ReactNode {
  const t = useText();
  return (
    <>
      <TextField
        label={t('people.name')}
        value={draft.name}
        maxLength={MOST_LETTERS.name}
        onChange={(v) => put({ name: v })}
      />
      <Segmented
        bare
        label={t('people.kind')}
        value={draft.kind}
        options={[
          { value: 'person', label: t('people.kind.person') },
          { value: 'firm', label: t('people.kind.firm') },
        ]}
        onChange={(v) => put({ kind: v })}
      />
      <TextField
        kind="tel"
        label={t('people.phone')}
        value={draft.phone}
        maxLength={MOST_LETTERS.phone}
        onChange={(v) => put({ phone: v })}
      />
      <TextField
        kind="email"
        label={t('people.email')}
        value={draft.email}
        maxLength={MOST_LETTERS.email}
        onChange={(v) => put({ email: v })}
      />
    </>
  );
}

function Billed({ draft, put }: Fields): ReactNode {
  const t = useText();
  return (
    <>
      <TextField
        lines={3}
        label={t('people.address')}
        value={draft.address}
        maxLength={MOST_LETTERS.address}
        onChange={(v) => put({ address: v })}
      />
      <div className={css['two']}>
        <TextField
          label={t('people.taxNumber')}
          value={draft.taxNumber}
          maxLength={MOST_LETTERS.taxNumber}
          onChange={(v) => put({ taxNumber: v })}
        />
        <NumberField
          label={t('people.termsDays')}
          note={draft.termsDays === 0 ? t('people.termsNone') : undefined}
          min={0}
          max={365}
          value={draft.termsDays}
          onChange={(v) => put({ termsDays: v ?? 0 })}
        />
      </div>
      <Select
        label={t('people.language')}
        value={draft.language || SHOPS}
        options={([SHOPS, ...PAPER_LANGUAGES] as const).map((value) => ({
          value,
          label: languageName(value, t),
        }))}
        onChange={(value) => put({ language: value === SHOPS ? '' : value })}
      />
    </>
  );
}
