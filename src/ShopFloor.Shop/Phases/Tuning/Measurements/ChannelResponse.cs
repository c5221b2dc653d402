using ShopFloor.Engineering.Responses;

namespace ShopFloor.Shop.Phases.Tuning.Measurements;

/// <summary>A channel as it was measured at one seat.</summary>
/// <param name="Preset">Preset in the car then; empty for none.</param>
/// <param name="Places">One for each place of the microphone, the middle of the head first where it was measured.</param>
/// <param name="Mean">Mean by power over the places; without phase.</param>
/// <param name="SpreadDecibels">Standard deviation over the places at the mean's frequencies, dB.</param>
public sealed record ChannelResponse(TuningChannel Channel, ListeningSeat Seat, string Preset, IReadOnlyList<PlaceResponse> Places, FrequencyResponse Mean, IReadOnlyList<double> SpreadDecibels);

/// <param name="Response">Repeats averaged; the arrival is out of its phase.</param>
/// <param name="ArrivalSeconds">Mean of the repeats, s; null while nothing says.</param>
/// <param name="IsInverted">Null while nothing says.</param>
/// <param name="Relative">Whether a microphone without known response took part.</param>
public sealed record PlaceResponse(MicrophonePlace Place, FrequencyResponse Response, double? ArrivalSeconds, ArrivalClock Clock, bool? IsInverted, double PolarityConfidence, int Repeats, bool Relative);
