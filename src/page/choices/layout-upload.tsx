import { type ReactNode, useId, useState } from 'react';
import type { Job, Shot } from '../../contract/index.ts';
import { jobLabels } from '../../words/index.ts';
import { patchShot, putLayout } from '../link/index.ts';
import { useCall } from './use-call.ts';

interface LayoutUploadProps {
  readonly job: Pick<Job, 'code'>;
  readonly shot: Pick<Shot, 'id' | 'layout'>;
}

/** Gives a shot its layout picture, another one, or none; each can be taken back like any choice. */
export function LayoutUpload({ job, shot }: LayoutUploadProps): ReactNode {
  const { refusal, run } = useCall();
  const [sending, setSending] = useState(false);
  const input = useId();
  const send = (file: File | undefined): void => {
    if (file === undefined) return;
    setSending(true);
    void run(() => putLayout(job.code, shot.id, file)).then(() => setSending(false));
  };
  return (
    <div className="layout-upload">
      <label htmlFor={input}>{shot.layout === null ? jobLabels.addLayout : jobLabels.changeLayout}</label>
      <input
        id={input}
        type="file"
        accept="image/png,image/jpeg,image/webp,image/tiff"
        disabled={sending}
        onChange={(event) => {
          send(event.target.files?.[0]);
          // The same file chosen again is a choice again.
          event.target.value = '';
        }}
      />
      {shot.layout === null ? null : (
        <button type="button" onClick={() => run(() => patchShot(job.code, shot.id, { layout: null }))}>
          {jobLabels.noLayout}
        </button>
      )}
      <p role="status" className="refusal">
        {sending ? jobLabels.layoutSending : refusal}
      </p>
    </div>
  );
}
