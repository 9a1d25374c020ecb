import { ServerSerial } from 'modbus-serial';

/** What a slave holds: registers by number, of both tables, and how it misbehaves. */
export interface SlaveRegisters {
  readonly input: Map<number, number>;
  readonly holding: Map<number, number>;
  /** Exception to answer every question with; 0: none. */
  exception: number;
  /** Does not answer at all. */
  silent: boolean;
}

/** A slave of another library at its end of a line; answers as any unit from 1 to 247. */
export async function startSlave(
  port: string,
  registers: SlaveRegisters,
): Promise<{ stop(): Promise<void> }> {
  const read = (table: Map<number, number>, address: number): Promise<number> => {
    if (registers.silent) return new Promise(() => undefined);
    const value = table.get(address);
    const exception = registers.exception || (value === undefined ? 2 : 0);
    if (exception === 0) return Promise.resolve(value!);
    return Promise.reject(Object.assign(new Error('refused'), { modbusErrorCode: exception }));
  };
  const slave = new ServerSerial(
    {
      getInputRegister: (address: number) => read(registers.input, address),
      getHoldingRegister: (address: number) => read(registers.holding, address),
    },
    // `interval`: after so many ms of silence it takes what came for a whole question.
    { path: port, baudRate: 115_200, unitID: 255, ...{ interval: 3 } },
  );
  await new Promise<void>((resolve) => slave.once('initialized', () => resolve()));
  return { stop: () => new Promise((resolve) => slave.close(() => resolve())) };
}
