"""Names of months and weekdays in many languages, for files that may be in another language than the system.

As the Unicode CLDR has them, wide and short, where no two languages mean different months by one name.
"""

from dataclasses import replace

from keeper.dates.spelling import Spelling

_MONTHS = (
    "Januar Jänner janvier enero gennaio janeiro januari januar tammikuu tammikuuta styczeń stycznia leden ledna január január január ocak января январь січня січень ianuarie jaanuar sausio janvāris Ιανουάριος Ιανουαρίου",
    "Februar Feber février febrero febbraio fevereiro februari februar helmikuu helmikuuta luty lutego únor února február şubat февраля февраль лютого лютий februarie veebruar vasario februāris Φεβρουάριος Φεβρουαρίου févr fev",
    "März mars marzo março maart mars marts maaliskuu maaliskuuta marzec marca březen března március mart марта март березня березень martie märts kovo Μάρτιος Μαρτίου mrz mrt",
    "April avril abril aprile april huhtikuu huhtikuuta kwiecień kwietnia duben dubna április nisan апреля апрель квітня квітень aprilie aprill balandžio aprīlis Απρίλιος Απριλίου avr abr",
    "Mai mai mayo maggio maio mei maj toukokuu toukokuuta maja květen května május mayıs мая май травня травень gegužės maijs Μάιος Μαΐου mag",
    "Juni juin junio giugno junho juni kesäkuu kesäkuuta czerwiec czerwca červen června június haziran июня июнь червня червень iunie juuni birželio jūnijs Ιούνιος Ιουνίου giu",
    "Juli juillet julio luglio julho juli heinäkuu heinäkuuta lipiec lipca červenec července július temmuz июля июль липня липень iulie juuli liepos jūlijs Ιούλιος Ιουλίου juil lug",
    "August août agosto agosto augustus augusti elokuu elokuuta sierpień sierpnia srpen srpna augusztus ağustos августа август серпня серпень rugpjūčio augusts Αύγουστος Αυγούστου ago",
    "September septembre septiembre settembre setembro syyskuu syyskuuta wrzesień września září szeptember eylül сентября сентябрь вересня вересень septembrie rugsėjo septembris Σεπτέμβριος Σεπτεμβρίου sept set",
    "Oktober octobre octubre ottobre outubro oktober lokakuu lokakuuta październik października říjen října október ekim октября октябрь жовтня жовтень octombrie oktoober spalio oktobris Οκτώβριος Οκτωβρίου okt out",
    "November novembre noviembre novembre novembro marraskuu marraskuuta listopada listopadu kasım ноября ноябрь листопада noiembrie lapkričio novembris Νοέμβριος Νοεμβρίου",
    "Dezember décembre diciembre dicembre dezembro december joulukuu joulukuuta grudzień grudnia prosinec prosince aralık декабря декабрь грудня грудень decembrie detsember gruodžio decembris Δεκέμβριος Δεκεμβρίου dez dic déc",
)
_WEEKDAYS = (
    "Montag lundi lunes lunedì maandag måndag mandag maanantai poniedziałek pondělí hétfő pazartesi понедельник понеділок",
    "Dienstag mardi martes martedì dinsdag tisdag tirsdag tiistai wtorek úterý kedd salı вторник вівторок",
    "Mittwoch mercredi miércoles mercoledì woensdag onsdag keskiviikko środa středa szerda çarşamba среда середа",
    "Donnerstag jeudi jueves giovedì donderdag torsdag torstai czwartek čtvrtek csütörtök perşembe четверг четвер",
    "Freitag vendredi viernes venerdì vrijdag fredag perjantai piątek pátek péntek cuma пятница пʼятниця",
    "Samstag Sonnabend samedi sábado sabato zaterdag lördag lørdag lauantai sobota szombat cumartesi суббота субота",
    "Sonntag dimanche domingo domenica zondag söndag søndag sunnuntai niedziela neděle vasárnap pazar воскресенье неділя",
)
_AROUND = ("de", "den", "der", "le", "la", "el", "du", "il", "o", "dia", "om", "kl", "uur", "lo")


def understanding(own: Spelling, order: str) -> Spelling:
    """The person's own way, the order given, and the names of all these languages; the own mean what they mean at home."""
    return replace(
        own, order=order, months=_joined(own.months, _MONTHS), weekdays=_joined(own.weekdays, _WEEKDAYS),
        around=tuple(dict.fromkeys((*own.around, *_AROUND))),
    )  # fmt: skip


def _joined(own: tuple[tuple[str, ...], ...], told: tuple[str, ...]) -> tuple[tuple[str, ...], ...]:
    names = [tuple(text.split()) for text in told]
    mine = own or ((),) * len(told)
    known = {name.casefold() for many in mine for name in many}
    return tuple(
        tuple(dict.fromkeys((*first, *(name for name in more if name.casefold() not in known)))) for first, more in zip(mine, names, strict=True)
    )
