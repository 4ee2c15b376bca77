import { type ReactNode, useEffect, useState } from 'react';
import type { Job, Shot } from '../../contract/index.ts';
import { jobLabels } from '../../words/index.ts';
import { layoutAddress } from '../link/index.ts';

interface LayoutPictureProps {
  readonly job: Pick<Job, 'code'>;
  readonly shot: Pick<Shot, 'id' | 'name' | 'layout'>;
  /** Pixels to ask for. */
  readonly width?: number;
}

/** The layout picture of a shot; nothing where it has none, or none that can be shown. */
export function LayoutPicture({ job, shot, width = 480 }: LayoutPictureProps): ReactNode {
  const [failed, setFailed] = useState(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another picture is another attempt
  useEffect(() => setFailed(false), [shot.layout]);
  if (shot.layout === null || failed) return null;
  return (
    <img
      className="layout-picture"
      src={`${layoutAddress(job.code, shot.id, width)}&v=${encodeURIComponent(shot.layout)}`}
      alt={jobLabels.layoutOf(shot.name)}
      onError={() => setFailed(true)}
    />
  );
}
