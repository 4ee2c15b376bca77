/** line: facts about the way from camera to station, and what they mean. Pure. */

export { addressesToEnter, addressFor, whereaboutsOf } from './address-for.ts';
export { type AddressUse, addressUse, camerasMayEnter, isInNetwork, networkOf } from './addresses.ts';
export { goneAddress } from './causes/own-address.ts';
export { ownFirewall } from './causes/walls.ts';
export { type DeviceTry, deviceFindings } from './device-rehearsal.ts';
export { diagnose } from './diagnose.ts';
export type {
  AddressFacts,
  CameraFacts,
  DoorFacts,
  FirewallFacts,
  InterfaceFacts,
  LineFact,
  LineFacts,
  LineSystem,
  LoginFacts,
  NeighbourFacts,
  WallFacts,
  WallState,
  WayFacts,
} from './facts.ts';
export { legacyTable, parseIptables } from './firewall/iptables.ts';
export { wordsOfOpening } from './firewall/known-command.ts';
export { parseNft } from './firewall/nft.ts';
export { portsText } from './firewall/ports.ts';
export type { Packet, RuleSet } from './firewall/rule-set.ts';
export { type Fate, fateOf } from './firewall/walk.ts';
export { neighboursOfArp, neighboursOfProc, unansweredOfProc } from './reading/arp.ts';
export { type Holders, holdersOfLsof, holdersOfNetstat, holdersOfSs } from './reading/holders.ts';
export { interfacesOfIp, type LinkFacts, neighboursOfIp, wayOfIp } from './reading/ip-json.ts';
export { macosDetails } from './reading/macos.ts';
export { windowsDetails } from './reading/windows.ts';
export {
  type CauseCode,
  type Cure,
  causeCodes,
  type LineFinding,
  type LineWeight,
  type Sureness,
} from './shapes.ts';
export { type ArrivedFile, bytesMin, filesMax, type LineSpeed, speedFinding, speedOf } from './speed.ts';
