using CsCheck;
using ShopFloor.Shop.Vehicles.Identification;

namespace ShopFloor.Shop.Tests.Vehicles.Identification;

public class VinTests
{
    private const string Alphabet = "0123456789ABCDEFGHJKLMNPRSTUVWXYZ";

    // 49 CFR 565.15 Table VI prints 411 and 4. The other sums: worked by hand from Tables III and IV.
    [Theory]
    [InlineData("1G4AH59H45G118341", 411, '4')]
    [InlineData("1M8GDM9AXKP042788", 351, 'X')]
    [InlineData("LJCPCBLCX11000237", 186, 'X')]
    [InlineData("11111111111111111", 89, '1')]
    public void Published_numbers_carry_the_digit_the_regulation_computes(string number, int sum, char digit)
    {
        Assert.Equal(sum, VinCheckDigit.WeightedSum(number));
        Assert.Equal(digit, VinCheckDigit.Compute(number));
        Assert.True(Vin.TryCreate(number, checkDigitApplies: true, out var vin, out _));
        Assert.True(vin.CheckDigitMatches);
    }

    // Table V prints 7/11 as 0.634 although it is 0.636: whoever looks the digit up by that decimal misses remainder 7.
    // Sums by hand: 8 x 1 + 10 x 7 = 78, and 2 for each unit in the last place.
    [Theory]
    [InlineData("10000007000000003", 84, '7')]
    [InlineData("10000007000000004", 86, '9')]
    [InlineData("10000007000000005", 88, '0')]
    [InlineData("1000000700000001X", 95, '7')]
    public void Remainder_seven_gives_digit_seven(string number, int sum, char digit)
    {
        Assert.Equal(sum, VinCheckDigit.WeightedSum(number));
        Assert.Equal(digit, VinCheckDigit.Compute(number));
    }

    [Fact]
    public void Wrong_check_digit_is_refused_and_the_message_names_both_digits_and_the_way_out()
    {
        Assert.False(Vin.TryCreate("1M8GDM9A4KP042788", checkDigitApplies: true, out var vin, out var problem));

        Assert.Null(vin);
        Assert.StartsWith("Check digit at position 9 is '4', computed 'X' (49 CFR 565.15).", problem, StringComparison.Ordinal);
        Assert.Contains("tick 'no check digit' with a reason", problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Changed_last_digit_of_the_published_number_is_refused()
    {
        // Last weight 2, digit 1 to 2: 413 = 37 x 11 + 6.
        Assert.False(Vin.TryCreate("1G4AH59H45G118342", checkDigitApplies: true, out _, out var problem));
        Assert.Contains("computed '6'", problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Vehicle_of_another_market_may_hold_anything_of_the_alphabet_in_position_nine()
    {
        Assert.True(Vin.TryCreate("1G4AH59HZ5G118341", checkDigitApplies: false, out var vin, out _));
        Assert.False(vin.CheckDigitMatches);
        Assert.Null(vin.OverrideReason);
    }

    [Theory]
    [InlineData("1g4ah59h45g118341")]
    [InlineData(" 1G4 AH59H 45G1 18341 ")]
    [InlineData("1G4-AH59H-45G118341")]
    [InlineData("1G4\u2013AH59H\u00A045G118341")]
    public void Case_spaces_and_dashes_do_not_matter(string input)
    {
        Assert.True(Vin.TryCreate(input, checkDigitApplies: true, out var vin, out _));
        Assert.Equal("1G4AH59H45G118341", vin.Value);
        Assert.Equal("1G4AH59H45G118341", vin.ToString());
    }

    [Theory]
    [InlineData("1G4AH59H45G11834I", "'I' at position 17", "digit 1")]
    [InlineData("1G4AH59H45G1183O1", "'O' at position 16", "digit 0")]
    [InlineData("QG4AH59H45G118341", "'Q' at position 1", "digit 0 or 9")]
    [InlineData("1G4AH59H45G11834É", "'É' at position 17", "without I, O and Q")]
    [InlineData("1G4AH59H45G11834", "has 16 characters", "unusual number")]
    [InlineData("1G4AH59H45G1183411", "has 18 characters", "unusual number")]
    [InlineData("", "empty", "17 characters")]
    [InlineData(null, "empty", "17 characters")]
    [InlineData(" - - ", "empty", "17 characters")]
    public void Unusable_input_is_refused_with_the_place_and_a_hint(string? input, string place, string hint)
    {
        Assert.False(Vin.TryCreate(input, checkDigitApplies: false, out _, out var problem));
        Assert.Contains(place, problem, StringComparison.Ordinal);
        Assert.Contains(hint, problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Very_long_input_is_refused_without_being_repeated()
    {
        Assert.False(Vin.TryCreate(new string('1', 100_000), checkDigitApplies: false, out _, out var problem));
        Assert.True(problem.Length < 200);
    }

    /// <summary>
    /// All weights but position 9's lie in 2..10 and so have an inverse modulo 11. One changed character therefore escapes exactly when
    /// old and new value are congruent modulo 11, and as values lie in 0..9, exactly when they are equal (A, J and 1, for example).
    /// A change in position 9 itself is always found.
    /// </summary>
    [Fact]
    public void One_changed_character_is_found_unless_both_have_the_same_value()
    {
        var generator = from characters in Gen.OneOf(Alphabet.ToCharArray()).Array[17]
                        from position in Gen.Int[0, 16]
                        from replacement in Gen.OneOf(Alphabet.ToCharArray())
                        select (characters, position, replacement);
        var (found, escaped) = (0, 0);

        generator.Sample(
            input =>
            {
                var (characters, position, replacement) = input;
                characters[8] = VinCheckDigit.Compute(characters);
                var valid = new string(characters);
                var old = characters[position];
                characters[position] = replacement;
                var accepted = Vin.TryCreate(new string(characters), checkDigitApplies: true, out _, out _);
                var sameValue = position == 8 ? old == replacement : VinCheckDigit.ValueOf(old) % 11 == VinCheckDigit.ValueOf(replacement) % 11;
                if (old != replacement)
                {
                    Interlocked.Increment(ref accepted ? ref escaped : ref found);
                }

                return Vin.TryCreate(valid, checkDigitApplies: true, out _, out _) && accepted == sameValue;
            },
            iter: 20_000);

        Assert.True(found > 10 * escaped && escaped > 0, $"{found} found, {escaped} escaped: both kinds should occur.");
    }

    // 49 CFR 565.15 Table VII and (d)(1): position 7 a digit for 1980 to 2009, a letter for 2010 to 2039.
    [Theory]
    [InlineData("1G4AH59H45G118341", new[] { 2005 }, new[] { 2005, 2035 })]
    [InlineData("1G4AH5AH45G118341", new[] { 2035 }, new[] { 2005, 2035 })]
    [InlineData("1G4AH5AH4AG118341", new[] { 2010 }, new[] { 1980, 2010 })]
    [InlineData("1G4AH5AH4TG118341", new[] { 2026 }, new[] { 1996, 2026 })]
    [InlineData("1G4AH5AH4YG118341", new[] { 2030 }, new[] { 2000, 2030 })]
    [InlineData("1G4AH5AH41G118341", new[] { 2031 }, new[] { 2001, 2031 })]
    [InlineData("1G4AH59H49G118341", new[] { 2009 }, new[] { 2009, 2039 })]
    [InlineData("1G4AH59H4UG118341", new int[0], new int[0])]
    [InlineData("1G4AH59H4ZG118341", new int[0], new int[0])]
    [InlineData("1G4AH59H40G118341", new int[0], new int[0])]
    public void Model_year_follows_from_positions_ten_and_seven(string number, int[] light, int[] heavy)
    {
        Assert.True(Vin.TryCreate(number, checkDigitApplies: false, out var vin, out _));
        Assert.Equal(light, vin.ModelYearCandidates(lightVehicle: true));
        Assert.Equal(heavy, vin.ModelYearCandidates(lightVehicle: false));
    }

    [Theory]
    [InlineData("67-1o4 q3", "671O4Q3")]
    [InlineData("12345", "12345")]
    [InlineData("1M8GDM9A4KP042788", "1M8GDM9A4KP042788")]
    public void Old_or_unusual_number_is_accepted_with_a_reason(string input, string value)
    {
        Assert.True(Vin.TryCreateOverride(input, " read from the frame, built 1967 ", out var vin, out var problem));
        Assert.Null(problem);
        Assert.Equal(value, vin.Value);
        Assert.Equal("read from the frame, built 1967", vin.OverrideReason);
        Assert.False(vin.CheckDigitMatches);
    }

    [Theory]
    [InlineData("1234", "old", "has 4 characters")]
    [InlineData("123456789012345678", "old", "has 18 characters")]
    [InlineData("12345", "  ", "needs a reason")]
    [InlineData("12345", null, "needs a reason")]
    [InlineData("123/45", "old", "'/' at position 4")]
    public void Override_still_needs_a_reason_and_five_to_seventeen_letters_or_digits(string input, string? reason, string expected)
    {
        Assert.False(Vin.TryCreateOverride(input, reason, out var vin, out var problem));
        Assert.Null(vin);
        Assert.Contains(expected, problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Override_number_has_no_model_year_to_decode()
    {
        Assert.True(Vin.TryCreateOverride("6710443", "read from the frame", out var vin, out _));
        Assert.Empty(vin.ModelYearCandidates(lightVehicle: false));
    }
}
