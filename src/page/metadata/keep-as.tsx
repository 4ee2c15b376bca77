import { type ReactNode, useId, useState } from 'react';
import type { MetadataSheet } from '../../deliver/index.ts';
import { metadataLabels as labels } from '../../words/index.ts';
import { keepMetadataSheet } from '../link/index.ts';
import type { KeptSheetsNow } from './use-kept-sheets.ts';

interface KeepAsProps {
  readonly sheet: MetadataSheet;
  readonly tell: KeptSheetsNow['tell'];
  readonly onKept: (title: string) => void;
}

/** Keeps the words of this job under a title, which is first the one they have. */
export function KeepAs({ sheet, tell, onKept }: KeepAsProps): ReactNode {
  const id = useId();
  const [typed, setTyped] = useState<string | null>(null);
  const title = typed ?? sheet.title;
  return (
    <div className="entry">
      <label htmlFor={id}>{labels.keepAs}</label>
      <span className="metadata-row">
        <input id={id} value={title} maxLength={80} onChange={({ target }) => setTyped(target.value)} />
        <button
          type="button"
          className="press"
          disabled={title.trim() === ''}
          onClick={() =>
            tell(async () => {
              const kept = await keepMetadataSheet({ ...sheet, title: title.trim() });
              onKept(kept.title);
              return labels.keptAs(kept.title);
            })
          }
        >
          {labels.keep}
        </button>
      </span>
    </div>
  );
}
