import type { ReactNode } from 'react';
import { when } from '#core/shared/text/when.ts';
import type { InvoiceView } from '#core/shared/views/billing.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { PaperActs } from '../../ui/PaperActs.tsx';

/**
 * A document as paper, as a message and for machines. There is one original, so it is kept when an issued one was saved,
 * sent or printed; to look at it is none of these, and only a person knows what left the printer.
 */
export function InvoicePapers(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const { id: invoiceId, number, customer } = props.invoice;
  const pdf = useDocument('billing.invoiceFile');
  const ubl = useDocument('billing.ublFile');
  const draft = useDocument('billing.emailDraft');
  const note = useCommand('billing.notePrint');
  const issued = number !== null;
  async function noted(saving: Promise<string | null>): Promise<string | null> {
    const file = await saving;
    if (issued && file !== null) await note.run({ invoiceId });
    return file;
  }
  return (
    <section>
      <PaperActs
        paper={{
          busy: pdf.busy || note.busy,
          refusal: pdf.refusal ?? ubl.refusal ?? note.refusal,
          open: () => pdf.open({ invoiceId }),
          save: () => noted(pdf.save({ invoiceId })),
        }}
        mail={issued ? { ...draft, save: () => noted(draft.save({ of: 'invoice', invoiceId })) } : null}
        to={customer}
      >
        {issued ? (
          <>
            <LinkButton onPress={() => void note.run({ invoiceId })}>{t('invoice.wasPrinted')}</LinkButton>
            <LinkButton onPress={() => void ubl.save({ invoiceId })}>{t('invoice.ubl')}</LinkButton>
          </>
        ) : null}
      </PaperActs>
      <Printed invoice={props.invoice} />
    </section>
  );
}

function Printed(props: { readonly invoice: InvoiceView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { prints } = props.invoice;
  const last = prints.at(-1);
  if (!last) return null;
  const said = when(manner, last.atMs, Date.now());
  return (
    <p className="t1 dusty">{t('invoice.printed', { n: prints.length, when: said, by: last.by || '–' })}</p>
  );
}
