import { secondOpinions, type SecondOpinion } from '../ledger/second-opinion';
import { wallText, type WallMin } from '../words/calendar';
import { fileWords } from '../words/reader';
import type { DiverLedger, Entry, Ledger, LoopFigures } from '../ledger/ledger-types';
import { roomOf } from '../ledger/room';
import { waterAt } from '../document/waters';
import { missedDive } from '../document/as-dived';
import type { Trip } from '../document/types';
import type { Caution } from '../cautions/caution';

function textOrNull(min: WallMin | null): string | null {
  return min === null ? null : wallText(min);
}

function secondOpinionOf(opinion: SecondOpinion) {
  const { procedure, limitMin, unlimited, residualMin, groupBefore, groupAfter, agrees, reason } = opinion;
  return {
    procedure,
    limitMin,
    ...(unlimited ? { unlimited } : {}),
    residualMin,
    groupBefore,
    groupAfter,
    agrees,
    reason,
  };
}

function loopOf({ breathing, diluent, diluentModM, oxygen, diluentGas, scrubber, bailOut }: LoopFigures) {
  const { lowBar, highBar, switchM, toleranceBar, diluentO2 } = breathing;
  return {
    setpoints: { lowBar, highBar, switchM },
    toleranceBar,
    diluent: { mixId: diluent.id, o2: diluentO2, modM: diluentModM },
    oxygen,
    diluentGas,
    scrubber,
    bailOut: bailOut && {
      atMin: bailOut.atMin,
      fromM: bailOut.fromM,
      stops: bailOut.stops,
      runtimeMin: bailOut.runtimeMin,
      mixes: bailOut.mixes.map(({ mix, o2, modM, neededL, holdsL }) => ({
        mixId: mix.id,
        o2,
        modM,
        neededL,
        holdsL,
      })),
    },
  };
}

function entryOf(trip: Trip, entry: Entry, opinion: SecondOpinion) {
  return {
    diveId: entry.dive.id,
    siteId: entry.dive.siteId,
    startsAt: wallText(entry.startMin),
    surfacesAt: entry.isMade ? wallText(entry.surfacesMin) : null,
    intervalMin: entry.intervalMin,
    asDived: entry.isAsDived,
    asPlanned: entry.isAsPlanned,
    mix: entry.mix === null ? null : { id: entry.mix.id, o2: entry.o2, analysed: entry.isAnalysed },
    altitudeM: waterAt(trip, entry.dive).altitudeM,
    depthM: entry.depthM,
    bottomMin: entry.bottomMin,
    modM: entry.modM,
    po2Bar: entry.po2Bar,
    eadM: entry.eadM,
    gasDensityGL: entry.gasDensityGL,
    noStopMin: entry.noStopMin,
    ...(entry.unlimited ? { unlimited: true } : {}),
    levels: entry.levels.map(({ depthM, min, noStopMin, unlimited }) => ({
      depthM,
      min,
      noStopMin,
      ...(unlimited ? { unlimited: true } : {}),
    })),
    room: roomOf(trip, entry),
    stops: entry.stops,
    tensionsBefore: entry.tensionsBefore,
    tensionsAfter: entry.isMade ? entry.after.tensions : entry.tensionsBefore,
    leading: entry.leading,
    cns: entry.cns,
    otu: entry.otu,
    esot: entry.esot,
    gas: {
      usedL: entry.gas.usedL,
      endBar: entry.gas.endBar,
      endRead: entry.gas.isEndRead,
      breathedLpm: entry.gas.breathedLpm,
      turnBar: entry.gas.turnBar,
      minimumBar: entry.gas.minimumBar,
    },
    ...(entry.loop === null ? {} : { loop: loopOf(entry.loop) }),
    secondOpinion: secondOpinionOf(opinion),
  };
}

function diverOf(trip: Trip, ledger: DiverLedger) {
  const opinions = secondOpinions(ledger, trip);
  return {
    id: ledger.diver.id,
    name: ledger.diver.name,
    entries: ledger.entries.map((entry, index) => entryOf(trip, entry, opinions[index]!)),
    notDived: trip.dives.flatMap((dive) => {
      const missed = missedDive(dive, ledger.diver.id);
      return missed === null ? [] : [{ diveId: dive.id, reason: missed.reason ?? '' }];
    }),
    days: ledger.days,
    flyAfter: textOrNull(ledger.flyAfterMin),
    flight: ledger.flight && {
      latest: ledger.flight.latest,
      guideline: textOrNull(ledger.flight.guideline.clearMin),
      table: textOrNull(ledger.flight.table.clearMin),
      model: textOrNull(ledger.flight.model.clearMin),
    },
    climbs: ledger.climbs.map(({ climb, latest, clearMin, guideline, table, model }) => ({
      eventId: climb.event?.id ?? null,
      diveId: climb.dive?.id ?? null,
      at: wallText(climb.atMin),
      fromM: climb.fromM,
      toM: climb.toM,
      latest,
      clear: wallText(clearMin),
      guideline: textOrNull(guideline?.clearMin ?? null),
      table: textOrNull(table.clearMin),
      model: textOrNull(model.clearMin),
    })),
    clearAt: textOrNull(ledger.clearAtMin),
  };
}

/**
 * A ledger as the file that other programs read: every figure unrounded, fractions as fractions, times as
 * wall-clock text rounded up to the minute, null where a figure does not exist.
 * @param ledger of the whole party @param cautions found in it
 * @param diverId keeps one diver's ledger and the cautions that concern them
 * @returns plain data, ready for JSON
 * Source: CONVENTIONS, "The ledger file".
 */
export function ledgerDocument(ledger: Ledger, cautions: readonly Caution[], diverId?: string) {
  const divers = ledger.divers.filter((each) => diverId === undefined || each.diver.id === diverId);
  return {
    format: 'carryover/ledger' as const,
    version: 1 as const,
    title: ledger.trip.title,
    divers: divers.map((each) => diverOf(ledger.trip, each)),
    cautions: cautions
      .filter((caution) => diverId === undefined || caution.diverId === null || caution.diverId === diverId)
      .map((caution) => ({
        code: caution.code,
        severity: caution.severity,
        diverId: caution.diverId,
        diveId: caution.diveId,
        message: fileWords(caution.says),
        source: fileWords(caution.source),
      })),
  };
}
