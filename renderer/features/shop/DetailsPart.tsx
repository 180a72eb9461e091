import { type ReactNode, useState } from 'react';
import { MOST_LETTERS } from '#core/shared/letters.ts';
import type { Shop } from '#core/shared/views/shop.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useEdited } from '../../bridge/edited.ts';
import { useMay } from '../../bridge/person.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Elsewhere } from '../../ui/Elsewhere.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row } from '../../ui/Layout.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import { CountrySelect, CurrencySelect, WritingSelect } from './PlaceSelects.tsx';
import { Saved } from './Saved.tsx';
import css from './shop.module.css';
import { UnitFields } from './UnitFields.tsx';

type Details = Omit<Shop, 'settings' | 'isDemo' | 'demoDay' | 'revision'>;
type FieldsProps = {
  readonly draft: Details;
  readonly change: (part: Partial<Details>) => void;
  readonly off: string | undefined;
};

/** What the shop is called, where it is, how it writes. */
export function DetailsPart(props: { readonly shop: Shop }): ReactNode {
  const t = useText();
  const { settings: _, isDemo: _demo, demoDay: _day, revision, ...stored } = props.shop;
  const edited = useEdited<Details>(stored, revision);
  const [saved, setSaved] = useState(false);
  const update = useCommand('shop.update');
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const { draft, clashes } = edited;
  function change(part: Partial<Details>): void {
    setSaved(false);
    edited.put(part);
  }
  async function save(): Promise<void> {
    const done = await update.run({ revision: edited.revision, ...draft });
    if (!done.ok) return;
    edited.saved();
    setSaved(true);
  }
  return (
    <div className={css['form']}>
      <HeadFields draft={draft} change={change} off={off} />
      <PlaceFields draft={draft} change={change} off={off} />
      <UnitFields units={draft} onChange={change} off={off} />
      <Elsewhere edited={edited} label={(field) => t(`shop.${field}`)} stored={stored} />
      <Refusal refusal={update.refusal} />
      <Row>
        <Button
          kind="go"
          why={off ?? (clashes.length > 0 ? t('ui.elsewhere.choose') : undefined)}
          busy={update.busy}
          onPress={() => void save()}
        >
          {t('shop.save')}
        </Button>
        <Saved when={saved} />
      </Row>
    </div>
  );
}

const HEAD = ['name', 'address', 'phone', 'email', 'taxNumber'] as const;

/** What stands at the head of every document. */
function HeadFields({ draft, change, off }: FieldsProps): ReactNode {
  const t = useText();
  return HEAD.map((field) => (
    <TextField
      key={field}
      label={t(`shop.${field}`)}
      {...(field === 'address' ? { lines: 3 } : {})}
      value={draft[field]}
      maxLength={MOST_LETTERS[field]}
      onChange={(value) => change({ [field]: value })}
      off={off}
    />
  ));
}

function PlaceFields({ draft, change, off }: FieldsProps): ReactNode {
  const t = useText();
  return (
    <div className={css['pairs']}>
      <CountrySelect
        label={t('shop.country')}
        value={draft.country}
        onChange={(country) => change({ country })}
        off={off}
      />
      <Select
        label={t('shop.zone')}
        options={Intl.supportedValuesOf('timeZone').map((zone) => ({ value: zone, label: zone }))}
        value={draft.zone}
        onChange={(zone) => change({ zone })}
        off={off}
      />
      <CurrencySelect value={draft.currency} onChange={(currency) => change({ currency })} off={off} />
      <WritingSelect
        value={draft.locale}
        country={draft.country}
        currency={draft.currency}
        onChange={(locale) => change({ locale })}
        off={off}
      />
    </div>
  );
}
