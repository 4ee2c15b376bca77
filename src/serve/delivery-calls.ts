import type { Delivery, DeliveryChange, DeliveryPlan, DeliveryState } from '../contract/index.ts';
import type { MetadataSheet, Specification } from '../deliver/index.ts';

/** What the web door needs of the station about deliveries. */
export interface DeliveryCalls {
  /** Of a job, or of all; the newest first. */
  deliveries(job: string | undefined): Promise<readonly DeliveryState[]>;
  delivery(id: string): Promise<Delivery | null>;
  /** What `deliver` would make; makes nothing. Rejects `no-job`, `no-frame`, `nothing-to-deliver`. */
  planDelivery(wish: DeliveryWish): Promise<DeliveryPlan>;
  /** Begins one. Rejects `no-job`, `no-frame`, `nothing-to-deliver`, `cannot-write-there`, `no-destination`, `bad-destination`. */
  deliver(wish: DeliveryWish): Promise<Delivery>;
  /** Null where there is none of that id. Rejects `delivery-ended`. */
  changeDelivery(id: string, change: DeliveryChange): Promise<Delivery | null>;
}

export interface DeliveryWish {
  /** Code of the job. */
  readonly job: string;
  readonly specification: Specification;
  /** Ids of frames of the job; undefined for all whose mark the specification names. */
  readonly frames: readonly string[] | undefined;
  /** What is said of the pictures; null for what the job says. */
  readonly sheet: MetadataSheet | null;
}
