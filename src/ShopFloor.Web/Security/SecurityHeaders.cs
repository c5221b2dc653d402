namespace ShopFloor.Web.Security;

/// <summary>What browsers are told about every answer of the shop.</summary>
public static class SecurityHeaders
{
    public static WebApplication UseShopHeaders(this WebApplication app)
    {
        var headers = new HeaderPolicyCollection()
            .AddContentSecurityPolicy(policy =>
            {
                policy.AddDefaultSrc().Self();
                policy.AddScriptSrc().Self();

                // The component library writes its theme and its pop-overs' places as styles.
                policy.AddStyleSrc().Self().UnsafeInline();
                policy.AddImgSrc().Self().Data().Blob();
                policy.AddFontSrc().Self();
                policy.AddConnectSrc().Self();
                policy.AddObjectSrc().None();
                policy.AddBaseUri().Self();
                policy.AddFormAction().Self();
                policy.AddFrameAncestors().None();
            })
            // Full addresses stay within the shop; 'no-referrer' would also blank the origin that forms are checked by.
            .AddReferrerPolicySameOrigin()
            .ForEveryAnswer(app.Environment);
        app.UseSecurityHeaders(headers);

        // What an endpoint did not say may be kept is not kept: pages carry clients' and shop data.
        app.Use((context, next) =>
        {
            context.Response.OnStarting(() =>
            {
                if (context.Response.Headers.CacheControl.Count == 0)
                {
                    context.Response.Headers.CacheControl = "no-store";
                }

                return Task.CompletedTask;
            });
            return next(context);
        });
        return app;
    }

    /// <summary>What holds for staff pages, client pages, files and faults alike.</summary>
    public static HeaderPolicyCollection ForEveryAnswer(this HeaderPolicyCollection headers, IHostEnvironment environment)
    {
        headers
            .AddFrameOptionsDeny()
            .AddContentTypeOptionsNoSniff()
            .AddCrossOriginOpenerPolicy(policy => policy.SameOrigin())
            .AddCrossOriginResourcePolicy(policy => policy.SameOrigin())
            .AddPermissionsPolicy(policy =>
            {
                policy.AddCamera().Self();
                policy.AddMicrophone().Self(); // for relative measurements by a tablet
                policy.AddGeolocation().None();
                policy.AddPayment().None();
                policy.AddUsb().None();
            })
            .RemoveServerHeader();
        if (!environment.IsDevelopment())
        {
            headers.AddStrictTransportSecurityMaxAge(maxAgeInSeconds: 365 * 24 * 3600);
        }

        return headers;
    }
}
