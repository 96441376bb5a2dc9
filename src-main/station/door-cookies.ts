import { randomBytes } from 'node:crypto';
import type { FastifyReply } from 'fastify';
import { cookieName, cookieValue, deviceCookieName } from './request-guard.ts';

/** A bookmark works for half a year after the last entry by the printed address. */
const COOKIE_SECONDS = 180 * 24 * 3600;

/** Cookies of this door: no script reads them, no other site sends them, and under HTTPS they never go in the clear. */
export class Cookies {
  readonly #port: () => number;
  readonly #isSecure: boolean;

  constructor(port: () => number, isSecure: boolean) {
    this.#port = port;
    this.#isSecure = isSecure;
  }

  setSession(reply: FastifyReply, token: string): void {
    this.#set(reply, cookieName(this.#port()), cookieValue(token, randomBytes(9).toString('base64url')));
  }

  setDevice(reply: FastifyReply, deviceId: string, secret: string): void {
    this.#set(reply, deviceCookieName(this.#port()), cookieValue(deviceId, secret));
  }

  #set(reply: FastifyReply, name: string, value: string): void {
    void reply.setCookie(name, value, {
      httpOnly: true,
      sameSite: 'strict',
      secure: this.#isSecure,
      path: '/',
      maxAge: COOKIE_SECONDS,
    });
  }
}
