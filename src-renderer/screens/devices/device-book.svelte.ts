import type { Access, Device, DeviceInput, Invitation } from '../../../src-core/contract/access-view.ts';
import type { HostApi } from '../../../src-core/contract/host-api.ts';
import type { Reply, ReplyError } from '../../../src-core/contract/reply.ts';
import type { Person, Printer } from '../../../src-core/contract/shop-records.ts';
import { m } from '../../messages/en/devices.ts';

/** Devices, PINs and the list of who did what. Each change answers with what went wrong, or an empty text. */
export class DeviceBook {
  access = $state.raw<Access | null>(null);
  printers = $state.raw<readonly Printer[]>([]);
  people = $state.raw<readonly Person[]>([]);
  /** The code that was made last, as long as it is shown. */
  invitation = $state.raw<Invitation | null>(null);
  failure = $state.raw<ReplyError | null>(null);
  isBusy = $state(false);
  readonly #host: HostApi;

  constructor(host: HostApi) {
    this.#host = host;
  }

  async read(): Promise<void> {
    const [access, shop] = [await this.#host.call('access:list', {}), await this.#host.call('shop:read', {})];
    this.failure = access.ok ? (shop.ok ? null : shop.error) : access.error;
    if (access.ok) this.#take(access.value);
    if (shop.ok) {
      this.printers = shop.value.printers.filter(({ isRetired }) => !isRetired);
      this.people = shop.value.people.filter(({ isRetired }) => !isRetired);
    }
  }

  async invite(device: DeviceInput): Promise<string> {
    if (this.isBusy) return '';
    this.isBusy = true;
    const reply = await this.#host.call('access:invite', device);
    this.isBusy = false;
    if (!reply.ok) return reply.error.message;
    this.invitation = reply.value;
    await this.read();
    return '';
  }

  change(
    { id: deviceId, label, role, printerId }: Device,
    changed: Partial<Pick<Device, 'role' | 'printerId' | 'label'>>,
  ): Promise<string> {
    return this.#change(() =>
      this.#host.call('access:change-device', { deviceId, label, role, printerId, ...changed }),
    );
  }

  shutOut({ id: deviceId }: Device): Promise<string> {
    return this.#change(() => this.#host.call('access:revoke-device', { deviceId }));
  }

  /** Null takes the PIN away. */
  setPin(personId: string, pin: string | null): Promise<string> {
    return this.#change(() => this.#host.call('access:set-pin', { personId, pin }));
  }

  async #change(call: () => Promise<Reply<Access>>): Promise<string> {
    if (this.isBusy) return m.theLastChangeIsStillBeing();
    this.isBusy = true;
    const reply = await call();
    this.isBusy = false;
    if (reply.ok) this.#take(reply.value);
    return reply.ok ? '' : reply.error.message;
  }

  /** A device that is there now has used its code. */
  #take(next: Access): void {
    const had = this.access?.devices.map(({ id }) => id);
    if (had && next.devices.some(({ id }) => !had.includes(id))) this.invitation = null;
    this.access = next;
  }
}
